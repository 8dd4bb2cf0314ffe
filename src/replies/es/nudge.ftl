# El final del día.

nudge = { $rig } trabajó hoy y aún no se lavó. Desagüe abierto del todo, diez minutos.
nudge-flushed = Lavado
nudge-not-used = No se usó
not-used-noted = { $rig }: hoy no se usó. Apuntado.

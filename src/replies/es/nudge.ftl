# El final del día.

nudge = { $count ->
    [one] { $rigs } trabajó hoy y aún no se lavó. Llave de lavado abierta, diez minutos.
   *[other] { $rigs } trabajaron hoy y aún no se lavaron. Llave de lavado abierta, diez minutos cada uno.
  }
nudge-again = { $count ->
    [one] { $rigs } sigue sin lavar. Llave de lavado abierta, diez minutos.
   *[other] { $rigs } siguen sin lavar. Llave de lavado abierta, diez minutos cada uno.
  }
nudge-flushed = Lavado
nudge-later = En 30 minutos
nudge-not-used = No se usó
nudge-put-off = { $rigs }: vuelvo a preguntar a las { $time }.
nudge-no-more = { $rigs }: hoy no pregunto más. Cuando esté hecho, escribe: { $example }
nudge-not-yet = { $rigs }: hoy no he preguntado por el lavado. Cuando esté hecho, escribe: { $example }
not-used-noted = { $rig }: hoy no se usó. Anotado.
missed-flush = Le falta el último lavado ({ $day }): antes de empezar, diez minutos al desagüe.
flush-left = Trabajaron hoy y aún sin lavar: { $rigs }.
flush-done = Lavados hoy: { $rigs }.
flush-none-worked = Hoy no ha trabajado ningún equipo que se lave a mano.

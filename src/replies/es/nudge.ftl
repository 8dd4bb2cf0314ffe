# El final del día.

nudge = { $count ->
    [one] { $rigs } trabajó hoy y aún no se lavó. Desagüe abierto del todo, diez minutos.
   *[other] { $rigs } trabajaron hoy y aún no se lavaron. Desagüe abierto del todo, diez minutos cada uno.
  }
nudge-again = { $count ->
    [one] { $rigs } sigue sin lavarse. Desagüe abierto del todo, diez minutos.
   *[other] { $rigs } siguen sin lavarse. Desagüe abierto del todo, diez minutos cada uno.
  }
nudge-flushed = Lavado
nudge-later = En 30 minutos
nudge-not-used = No se usó
nudge-put-off = { $rigs }: pregunto una vez más a las { $time }.
nudge-no-more = { $rigs }: hoy no pregunto más. Cuando esté, escribe: { $example }
not-used-noted = { $rig }: hoy no se usó. Apuntado.
missed-flush = Se saltó su último lavado ({ $day }): déjalo correr al desagüe diez minutos antes de empezar.

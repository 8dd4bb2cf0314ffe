# El final del día.

nudge = { $count ->
    [one] { $rigs } trabajó hoy y está sin enjuagar. Abre la llave de enjuague diez minutos.
   *[other] { $rigs } trabajaron hoy y están sin enjuagar. Abre la llave de enjuague diez minutos en cada uno.
  }
nudge-again = { $count ->
    [one] { $rigs } sigue sin enjuagar. Abre la llave de enjuague diez minutos.
   *[other] { $rigs } siguen sin enjuagar. Abre la llave de enjuague diez minutos en cada uno.
  }
nudge-flushed = Lavado
nudge-later = En 30 minutos
nudge-not-used = No se usó
nudge-put-off = { $rigs }: vale, vuelvo a preguntar a las { $time }.
nudge-no-more = { $rigs }: hoy ya no pregunto más. Cuando esté hecho, escribe: { $example }
nudge-not-yet = { $rigs }: hoy no he preguntado por el enjuague. Cuando esté hecho, escribe: { $example }
not-used-noted = { $rig }: hoy no se usó. Anotado.
missed-flush = Se quedó sin enjuagar ({ $day }): antes de empezar, diez minutos al desagüe.
flush-left = Trabajaron hoy y están sin enjuagar: { $rigs }.
flush-done = Enjuagados hoy: { $rigs }.
flush-none-worked = Hoy no ha trabajado ningún equipo que se enjuague a mano.

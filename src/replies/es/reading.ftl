# La respuesta a una lectura. Siempre: primero el veredicto, luego el número y
# al final qué hacer; nada que obligue al pulgar a bajar. Los números llegan ya
# como texto.

reading-verdict = { $rig } { $percent } – { $state }
reading-verdict-short = { $rig } { $percent } – { $state } ({ $echo })
reading-no-rejection = { $rig }: guardado como lo mandaste, pero con esos números no sale un rechazo. Enjuaga el vaso y mide otra vez.
reading-verdict-di = { $rig } – { $ppm } ppm en el vidrio
reading-will-spot-slips = { $rig }: compacta bien la resina antes de la próxima ventana, { $ppm } ppm dejan manchas. Está casi nueva, así que está suelta, no gastada.
reading-will-spot = { $rig }: cambia la resina antes de la próxima ventana, { $ppm } ppm dejan manchas.
reading-will-spot-no-resin = { $rig }: { $ppm } ppm en el vidrio dejan manchas, y no hay resina que lo evite.
echo-membrane = red { $feed } → ósmosis { $permeate } ppm
echo-membrane-glass = red { $feed } → ósmosis { $permeate } → vidrio { $product } ppm
echo-di = red { $feed } → vidrio { $product } ppm
rejection-part = rechazo { $percent } – { $state }
change-up = { $day ->
    [hoy] sube { $points } puntos desde la anterior de hoy
    [ayer] sube { $points } puntos desde ayer
   *[other] sube { $points } puntos desde el { $day }
  }
change-down = { $day ->
    [hoy] baja { $points } puntos desde la anterior de hoy
    [ayer] baja { $points } puntos desde ayer
   *[other] baja { $points } puntos desde el { $day }
  }
change-none = { $day ->
    [hoy] estable desde la anterior de hoy
    [ayer] estable desde ayer
   *[other] estable desde el { $day }
  }
taken-on = { $day ->
    [ayer] anotado para ayer
   *[other] anotado para el { $day }
  }
flush-reminder = Enjuaga la membrana antes de recoger.
advice-no-resin-spots = Al vidrio llega esta agua tal cual: { $ppm } ppm pueden dejar manchas.
deed = { $what }: { $why }.
deed-alone = { $what }.
deed-short = { $told }; { $what }
readings-to-go = { $count ->
    [one] Con una lectura más lo sabré.
   *[other] Con { $count } lecturas más lo sabré.
  }

state-good = bien
state-fading = con desgaste
state-due = por cambiar
state-spent = agotada
state-unproven = aún es pronto
state-fault = buscar una fuga
state-back = otra vez como antes
state-doubtful = mide otra vez

corrected = Corregido:
withdrawn-reading = Anulado: { $rig }, { $echo }. Queda guardado, pero no cuenta.
withdrawn-service = Anulado: { $rig }, { $what }.
moved-without-ro = { $rig } tiene membrana y falta su lectura de ósmosis. No cambié nada. Mándala entera: { $example } 12
nothing-to-withdraw = En las últimas 12 horas no mandaste nada que pueda anular.
put-back-reading = Recuperado: { $rig }, { $echo }.
put-back-service = Recuperado: { $rig }, { $what }.
nothing-to-put-back = En las últimas 12 horas no anulaste nada.
used-up = { $rig }: cámbiala antes de la próxima ventana y avísame cuando esté hecho. No anoté nada.
left-standing = Vale, queda como estaba.
dropped = Vale, no lo anoto.

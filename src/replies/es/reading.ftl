# La respuesta a una lectura. Siempre: primero el veredicto, luego el número y
# al final qué hacer; nada que obligue al pulgar a bajar. Los números llegan ya
# como texto.

reading-verdict = { $rig } { $percent } - { $state }
reading-verdict-short = { $rig } { $percent } - { $state } ({ $echo })
reading-no-rejection = { $rig } - anotado como lo mandaste, pero no da rechazo. Enjuaga el vaso y lee otra vez.
reading-verdict-di = { $rig } - { $ppm } ppm en el vidrio
reading-will-spot-slips = { $rig } - { $ppm } ppm dejan manchas. Compacta bien la resina antes de la próxima ventana: apenas está usada.
reading-will-spot = { $rig } - cambia la resina antes de la próxima ventana: { $ppm } ppm dejan manchas.
reading-will-spot-no-resin = { $rig } - { $ppm } ppm en el vidrio dejan manchas, y tras la ósmosis no hay resina.
echo-membrane = red { $feed } -> ósmosis { $permeate } ppm
echo-membrane-glass = red { $feed } -> ósmosis { $permeate } -> vidrio { $product } ppm
echo-di = red { $feed } -> vidrio { $product } ppm
rejection-part = rechazo { $percent } - { $state }
change-up = { $day ->
    [hoy] sube { $points } desde la anterior de hoy
    [ayer] sube { $points } desde ayer
   *[other] sube { $points } desde el { $day }
  }
change-down = { $day ->
    [hoy] baja { $points } desde la anterior de hoy
    [ayer] baja { $points } desde ayer
   *[other] baja { $points } desde el { $day }
  }
change-none = { $day ->
    [hoy] igual que la anterior de hoy
    [ayer] igual que ayer
   *[other] igual que el { $day }
  }
taken-on = { $day ->
    [ayer] cuenta para ayer
   *[other] cuenta para el { $day }
  }
flush-reminder = Lava la membrana antes de recoger.
advice-no-resin-spots = Al vidrio llega esta agua tal cual: { $ppm } ppm pueden dejar manchas.
advice-read-again = Lejos de su tendencia, alrededor del { $percent } %. Deja correr 5 minutos, enjuaga el vaso y lee otra vez.
advice-back = Vuelve a estar como antes del salto { $day ->
    [hoy] de hoy
    [ayer] de ayer
   *[other] del { $day }
  }. Una lectura más así para estar seguros.
deed = { $what }: { $why }.
deed-alone = { $what }.
deed-short = { $told }; { $what }
readings-to-go = { $count ->
    [one] Con una lectura más lo sabré.
   *[other] Con { $count } lecturas más lo sabré.
  }
advice-unproven = Bajo, pero hay pocas lecturas para culpar a la membrana. Revisa mangueras y juntas, enjuaga el vaso y lee otra vez.
advice-renewed = Parece una membrana nueva. ¿Lo es? Escribe: { $rig } membrana nueva - { $rig } misma membrana

state-good = bien
state-fading = con desgaste
state-due = por cambiar
state-spent = agotada
state-unproven = aún es pronto
state-fault = buscar una fuga
state-back = otra vez como antes
state-doubtful = leer otra vez

corrected = Corregido.
withdrawn-reading = Anulado: { $rig }, { $echo }. Queda en el registro, pero ya no cuenta.
withdrawn-service = Anulado: { $rig }, { $what }.
moved-without-ro = { $rig } tiene membrana y falta su lectura de ósmosis. No cambié nada. Mándalo entero: { $example } 12
nothing-to-withdraw = No hay nada tuyo de las últimas 12 horas que anular.
put-back-reading = Recuperado: { $rig }, { $echo }.
put-back-service = Recuperado: { $rig }, { $what }.
nothing-to-put-back = No hay nada tuyo anulado en las últimas 12 horas.
used-up = { $rig }: hay que cambiarla antes del próximo vidrio; avisa cuando esté hecho. No se anotó nada.
left-standing = Queda como estaba.
dropped = Descartado. No se anotó nada.

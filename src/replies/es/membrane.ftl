# La membrana.

membrane-level = { $rig } { $percent } ({ $low }–{ $high }, { $basis }) – { $state }
membrane-level-leak = { $rig } – { $state }; la membrana sola: { $percent } ({ $low }–{ $high }, { $basis })
level-corrected = corregido a 12 °C
level-as-read = de { $readings ->
    [one] 1 lectura
   *[other] { $readings } lecturas
  }
membrane-old = La última lectura es de hace { $days } días. Mide antes de comprar.
membrane-trend = Pierde unos { $points } puntos al año.
membrane-steady = Se mantiene estable.
membrane-due-within = A este ritmo llega al { $line } % hacia { $likely } (de { $early } a { $late }).
membrane-due-from = A este ritmo llega al { $line } % hacia { $likely }, no antes de { $early }.
membrane-due-far = A este ritmo sigue por encima del { $line } % tres años o más.
membrane-due-unknown = Aún es pronto para dar una fecha: necesito ocho lecturas en 45 días.
membrane-new = { $rig }: membrana nueva { $day ->
    [hoy] desde hoy
    [ayer] desde ayer
   *[other] desde el { $day }
  }, aún sin lectura.
membrane-not-yet = { $rig }: aún es pronto, { $readings } hasta ahora. Necesito tres lecturas, o que anotes una membrana nueva.

## Un equipo sin resina

glass-spots-within = Sin resina: al vidrio llega el agua de la ósmosis, unos { $ppm } ppm. Llegará a 10 ppm, donde puede manchar, hacia { $likely } (de { $early } a { $late }).
glass-spots-from = Sin resina: al vidrio llega el agua de la ósmosis, unos { $ppm } ppm. Llegará a 10 ppm, donde puede manchar, hacia { $likely }, no antes de { $early }.
glass-now = Sin resina: al vidrio llega el agua de la ósmosis, unos { $ppm } ppm. Desde 10 ppm puede manchar.
glass-new-helps = Una membrana nueva la bajaría de 10.
glass-new-too = Con esta agua de red, ni una membrana nueva la bajaría de 10: eso solo lo hace la resina.
glass-decides = Aquí no hay resina, así que el precio da igual: cambia la membrana cuando el vidrio empiece a mancharse.
glass-lines-decide = Aquí no hay resina, así que el precio da igual: cambia la membrana cuando baje de tus límites.
glass-digest = ten una membrana a mano
    está en el { $percent }; sin resina manda la lectura del vidrio
glass-digest-many = Ten membranas a mano; sin resina manda la lectura del vidrio
    { $rigs }
glass-note = { $rig } { $percent }: ten una membrana a mano.
    Segunda semana seguida. Sin resina manda la lectura del vidrio.

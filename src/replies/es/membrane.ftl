# La membrana.

membrane-level = { $rig } { $percent } ({ $low }-{ $high }, { $basis }) - { $state }
level-corrected = corregido a 12 °C
level-as-read = de { $readings ->
    [one] 1 lectura
   *[other] { $readings } lecturas
  }
membrane-old = La última lectura es de hace { $days } días: mide antes de comprar.
membrane-trend = Pierde unos { $points } puntos al año.
membrane-steady = No se le ve desgaste.
membrane-due-within = Tocará cambiarla hacia { $likely } (de { $early } a { $late }).
membrane-due-from = Tocará cambiarla hacia { $likely }, no antes de { $early }.
membrane-due-crossed = Ya pasó la línea de aviso: compara una membrana nueva con la resina que ahorra.
membrane-due-far = No tocará cambiarla en tres años.
membrane-due-unknown = Cuándo tocará aún no se sabe: hacen falta ocho lecturas en 45 días.
membrane-new = { $rig }: membrana nueva { $day ->
    [hoy] desde hoy
    [ayer] desde ayer
   *[other] desde el { $day }
  }, aún sin lectura.
membrane-not-yet = { $rig }: muy pocas lecturas para decirlo, { $readings } hasta ahora. Hacen falta tres, o anotar la membrana nueva.

## Un equipo sin resina

glass-spots-within = Sin resina: al vidrio llega el agua de la ósmosis, unos { $ppm } ppm. Llegará a 10 ppm, donde puede manchar, hacia { $likely } (de { $early } a { $late }).
glass-spots-from = Sin resina: al vidrio llega el agua de la ósmosis, unos { $ppm } ppm. Llegará a 10 ppm, donde puede manchar, hacia { $likely }, no antes de { $early }.
glass-now = Sin resina: al vidrio llega el agua de la ósmosis, unos { $ppm } ppm. Desde 10 ppm puede manchar.
glass-new-helps = Una membrana nueva la bajaría de 10.
glass-new-too = Con esta agua de red, ni una membrana nueva la bajaría de 10: eso solo lo hace la resina.
glass-decides = Aquí una membrana nueva no ahorra resina, así que no decide ningún precio: cámbiala cuando el vidrio manche.
glass-lines-decide = Aquí una membrana nueva no ahorra resina, así que no decide ningún precio: cámbiala cuando baje de tus líneas.
glass-digest = ten una membrana a mano
    está en el { $percent }; sin resina decide el vidrio
glass-digest-many = Ten membranas a mano; aquí, sin resina, decide el vidrio
    { $rigs }
glass-note = { $rig } { $percent }: ten una membrana a mano.
    Es el segundo lunes seguido que la pide. Sin resina decide el vidrio.
glass-due-crossed = Ya pasó la línea de aviso: ten una membrana a mano.

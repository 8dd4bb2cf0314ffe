# La membrana.

membrane-level = { $rig } { $percent } ({ $low }-{ $high }) - { $state }
membrane-trend = Pierde unos { $points } puntos al año.
membrane-steady = No se le ve desgaste.
membrane-due-within = Tocará cambiarla hacia { $likely } (de { $early } a { $late }).
membrane-due-from = Tocará cambiarla hacia { $likely }, no antes de { $early }.
membrane-due-crossed = Ya pasó el límite de cambio: compara una membrana nueva con la resina que ahorra.
membrane-due-far = No tocará cambiarla en tres años.
membrane-due-unknown = Cuándo tocará aún no se sabe: hacen falta ocho lecturas en 45 días.
membrane-basis = { $readings ->
    [one] Con 1 lectura
   *[other] Con { $readings } lecturas
  }, corregidas por agua fría y poca presión cuando las diste.
membrane-new = { $rig }: membrana nueva { $day ->
    [hoy] desde hoy
    [ayer] desde ayer
   *[other] desde el { $day }
  }, aún sin lectura.
membrane-not-yet = { $rig }: muy pocas lecturas para decirlo, { $readings } hasta ahora. Hacen falta tres, o anotar la membrana nueva.

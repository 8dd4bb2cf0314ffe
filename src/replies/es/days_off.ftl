# Días libres: de un equipo, de todos. Esos días no hay recordatorios.

time-off-why = { $why ->
    [parked] parado
    [garage] en el taller
    [broken] fuera de servicio
    [winter] guardado
    [preserved] en conservante
    [lent] prestado
   *[off] libre
  }
time-off-open = { $why } por ahora
time-off-open-from = { $why } (desde: { $from })
time-off-one-day = { $why } ({ $from })
time-off-until = { $why } (de vuelta: { $back })
time-off-from-to = { $why } del { $from } al { $last }
time-off-rig = { $rig }: { $off }. { $ends ->
    [0] No preguntaré por él. Cuando vuelva, manda una lectura y ya está.
    [1] No preguntaré por él hasta entonces. ¿Vuelve antes? Manda una lectura.
   *[other] Esos días no preguntaré por él. ¿Vuelve antes? Manda una lectura.
  }
time-off-outfit = Todos: { $off }. Mientras tanto, ni recordatorios ni avisos.
time-off-already = Eso ya lo tengo. { $told }
time-off-care = Enjuaga la membrana antes de una parada larga y otra vez el primer día de vuelta. Más de 30 días: conservante, como diga el fabricante.
time-off-first-reading = Estuvo parado: enjuágalo antes unos minutos. Si esta lectura sale mala, repítela antes de juzgar la membrana.
time-off-back = { $rig } vuelve al trabajo.
time-off-back-outfit = De vuelta al trabajo. Los recordatorios siguen.
time-off-withdrawn = Retirado: { $rig } queda como estaba.
time-off-withdrawn-outfit = Retirado: vuestros días libres quedan como estaban.
time-off-when = No sé qué días son. Así: garza parada hasta el viernes | cerramos del 24 de diciembre al 2 de enero
time-off-until-when = ¿Hasta cuándo? Así: cerramos hasta el 4 de enero
time-off-who = ¿Quién libra: un equipo o todos? Toca, o dímelo así: garza parada hasta el lunes
time-off-everybody = todos

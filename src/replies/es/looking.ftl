# Consultas.

rig-none-yet = { $rig }: aún sin lecturas. Manda: { $example }
rig-no-rejection = { $rig }: con la última lectura no sale un rechazo
rig-last-taken-before = Antes del cambio: { $echo }, { $day ->
    [hoy] hoy
    [ayer] ayer
   *[other] el { $day }
  }
rig-new-membrane = { $rig }: membrana nueva, aún sin lectura
rig-verdict = { $rig } { $percent } leído – { $state }
rig-last-taken = { $echo }, { $day ->
    [hoy] hoy
    [ayer] ayer
   *[other] el { $day }
  }
rig-services-resin = Última resina: { $resin }.
rig-services-flush = Último enjuague: { $flush }.
rig-services = Última resina: { $resin }. Último enjuague: { $flush }.
never = sin anotar
history-title = { $rig }, lo último primero
history-line = { $day }  { $echo }  { $percent }
history-line-di = { $day }  { $echo }
fleet-title = { $outfit }: { $count ->
    [one] 1 equipo
   *[other] { $count } equipos
  }
fleet-line-none = { $rig } – aún sin lecturas
fleet-empty = Aún no hay equipos. Un dueño o encargado escribe: agregar equipo heron
quiet-title = Sin lecturas desde hace tres días o más:
quiet-line = { $rig }, la última el { $day }
quiet-none = Todos los equipos tienen lectura de los últimos tres días.

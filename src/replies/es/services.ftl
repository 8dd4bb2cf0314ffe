# Trabajos.

service-noted = { $rig }: { $what }. Anotado.
service-what-on = { $what } { $day }
service-what-paid = { $what }, { $price }
service-ahead = { $rig }: ese momento aún no ha llegado, así que no anoto nada. Mándalo cuando esté hecho.
service-resin = resina cambiada
service-repack = resina compactada de nuevo
service-membrane = membrana nueva
service-prefilter = prefiltros cambiados
service-flush = lavado
service-oring = junta cambiada
example-flushed = { $rig } lavado
service-price-left-out = El precio no quedó anotado: dilo para una sola pieza de un solo equipo y en tu moneda. Así: { $example }
example-priced = { $rig } resina nueva { $price }

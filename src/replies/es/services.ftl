# Trabajos.

service-noted = { $rig }: { $what }. Anotado.
service-what-on = { $what } { $day }
service-what-paid = { $what }, { $price }
service-told-already = { $rig }: ya estaba anotado: { $what }.
service-ahead = { $rig }: eso aún no ha pasado, así que no lo anoté. Avísame cuando esté hecho.
service-resin = resina cambiada
service-repack = resina compactada de nuevo
service-membrane = membrana nueva
service-prefilter = prefiltros cambiados
service-flush = enjuagado
service-meter = otro medidor
service-oring = junta cambiada
example-flushed = { $rig } lavado
service-price-left-out = El precio no quedó anotado: da un solo precio para una pieza de un equipo, en la moneda de la empresa. Así: { $example }
example-priced = { $rig } resina nueva { $price }

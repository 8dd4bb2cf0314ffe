# Trabajos.

service-noted = { $rig }: { $what }. Anotado.
service-resin = resina cambiada
service-repack = resina compactada de nuevo
service-membrane = membrana nueva
service-prefilter = prefiltros cambiados
service-flush = lavado
service-oring = junta cambiada
example-flushed = { $rig } lavado

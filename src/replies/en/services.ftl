# Services.

service-noted = { $rig }: { $what }. Logged.
service-what-on = { $what } { $day }
service-what-paid = { $what }, { $price }
service-told-already = { $rig }: { $what } was logged already.
service-ahead = { $rig }: that's in the future, so I haven't logged it. Text me when it's done.
service-resin = resin changed
service-repack = resin repacked
service-membrane = new membrane
service-prefilter = prefilters changed
service-flush = flushed
service-meter = another meter
service-oring = O-ring replaced
example-flushed = { $rig } flushed
service-price-left-out = I left the price out. Give one price for one part of one rig, in your currency. Like this: { $example }
example-priced = { $rig } new resin { $price }

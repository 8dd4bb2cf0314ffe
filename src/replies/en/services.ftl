# Services.

service-noted = { $rig }: { $what }. Noted.
service-what-on = { $what } { $day }
service-what-paid = { $what }, { $price }
service-ahead = { $rig }: that time is still to come, so nothing is noted. Text it once it is done.
service-resin = resin changed
service-repack = resin repacked
service-membrane = new membrane
service-prefilter = prefilters changed
service-flush = flushed
service-oring = O-ring replaced
example-flushed = { $rig } flushed
service-price-left-out = Price not noted: tell it for one part of one rig, in your own currency. Like this: { $example }
example-priced = { $rig } new resin { $price }

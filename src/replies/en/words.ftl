# What the words mean: the states of a membrane, the words of the trade.

term-good = Good: the membrane does its work, and no limit is near. Nothing to do.
term-fading = Fading: the membrane wears, as they all do over months. Go on, and keep an eye on it.
term-due = Plan a new one: the membrane lets so much through that a new one may be cheaper than the resin it costs. Time to weigh it, no emergency.
term-spent = Worn out: below the last of your lines, done, unless something leaks. Check hoses and O-rings, then change it.
term-unproven = Too early to tell: too few readings to tell. Three will do, or one after a logged new membrane.
term-fault = Look for a leak: the readings jumped faster than wear can. Look for a leak - a hose, an O-ring, a fitting - before you buy anything.
term-doubtful = Read again: this one reading is far from the rig's trend. Let it run 5 minutes, rinse the cup, read again.
term-rejection = Rejection: the share of dissolved solids that the membrane holds back, (tap - RO) / tap. Tap 180, RO 12: 93.3 %. A new membrane has about 95 % on tap water.
term-salt-passage = Salt passage: the share of dissolved solids that gets through the membrane, RO / tap. Tap 180, RO 12: 6.7 %. Together with the rejection it makes 100 %.
term-permeate = Permeate: the water that went through the membrane, read at the RO outlet, on the hose that feeds the resin.
term-concentrate = Waste, also called concentrate: the water that carries off what the membrane held back. Where it may go is a matter of local code.
term-feed = Feed: the water that comes in, here the tap. Always the first number.
term-ro = RO, reverse osmosis: pressure pushes water through a membrane that holds the dissolved solids back. Here it also means the reading behind it, the second number.
term-di = DI, deionisation: a bed of resin that takes the last dissolved solids out, behind the membrane.
term-glass = Glass: the water that reaches the window, behind the resin. It should read 0; from about 10 ppm on it leaves spots. The third number.
term-ppm = ppm, parts per million: milligrams of dissolved solids in a litre of water.
term-tds = TDS, total dissolved solids: all that is dissolved in the water, in ppm. A handheld meter estimates it from conductivity.
term-flush = Flush: water run fast to waste, so that it rinses off what the membrane held back. At the end of the working day, about ten minutes.
term-prefilter = Prefilters stand before the membrane: sediment holds back dirt, carbon holds back chlorine, which would ruin it.
term-membrane = Membrane: the part that holds back most of what is dissolved. It fades over months or years; the second number tells.
term-resin = Resin: small beads that take up the last dissolved solids, until they are full. What a worn membrane lets through, they must take.
term-standardised = Standardised: corrected to the same temperature and pressure, so that a cold morning does not look like wear.
term-rig = Rig: one van, trailer or cart with its filters, membrane and resin.
term-outfit = Outfit: one business with its people and rigs. Nobody else sees yours.

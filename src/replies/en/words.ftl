# What the words mean: the states of a membrane, the words of the trade.

term-good = Good: the membrane does its job, and no limit is near. Nothing to do.
term-fading = Fading: the membrane wears, as they all do over months. Carry on, and keep an eye on it.
term-due = Plan a new one: the membrane lets so much through that a new one may be cheaper than the resin it costs. No rush; time to work out if a new one pays.
term-spent = Worn out: below your last limit. Check hoses and O-rings for a leak; if there's none, fit a new membrane.
term-unproven = Too early to tell: not enough readings yet. Three will do, or one after you log a new membrane.
term-fault = Look for a leak: the readings jumped faster than wear can. Look for a leak - a hose, an O-ring, a fitting - before you buy anything.
term-doubtful = Read again: this one reading is far from the rig's trend. Let it run 5 minutes, rinse the cup, read again.
term-rejection = Rejection: the share of dissolved solids that the membrane holds back, (tap - RO) / tap. Tap 180, RO 12: 93.3%. A new membrane gives about 95% on tap water.
term-salt-passage = Salt passage: the share of dissolved solids that gets through the membrane, RO / tap. Tap 180, RO 12: 6.7%. Together with the rejection it makes 100%.
term-permeate = Permeate: the water that went through the membrane. You read it at the RO outlet, on the hose that feeds the resin.
term-concentrate = Waste, also called concentrate: the water that carries off what the membrane held back. Where it may go is a matter of local code.
term-feed = Feed: the water that comes in, here the tap. Always the first number.
term-ro = RO, reverse osmosis: pressure pushes water through a membrane that holds the dissolved solids back. Here it also means the reading after it, the second number.
term-di = DI, deionisation: a bed of resin that takes out the last dissolved solids, after the membrane.
term-glass = Glass: the water that reaches the window, after the resin. It should read 0; from about 10 ppm it leaves spots. The third number.
term-ppm = ppm, parts per million: milligrams of dissolved solids in a litre of water.
term-tds = TDS, total dissolved solids: all that is dissolved in the water, in ppm. A handheld meter estimates it from conductivity.
term-flush = Flush: water run fast to waste, so that it rinses off what the membrane held back. At the end of the working day, about ten minutes.
term-prefilter = Prefilters sit before the membrane: sediment holds back dirt, carbon holds back chlorine, which would ruin it.
term-membrane = Membrane: the part that holds back most of what's dissolved. It fades over months or years; the second number shows it.
term-resin = Resin: small beads that take up the last dissolved solids until they're full. Whatever a worn membrane lets through ends up here.
term-standardised = Standardised: corrected to the same temperature and pressure, so a cold morning doesn't look like wear.
term-rig = Rig: one van, trailer or cart with its filters, membrane and resin.
term-outfit = Outfit: one business with its people and rigs. Nobody else sees yours.

# Cautions: the usual ones, short, each once a person. Local codes and licensed practice come first.

caution-height = Take readings and text with both feet on safe ground, never from a ladder or near an edge.
caution-pressure = Before you open a housing: turn the water off and let the pressure out.
caution-chemicals = New membranes can come in preservative. Wear gloves and eye protection, follow the label, run the first water to waste.
caution-preservative = Preservative: wear gloves and eye protection, follow the label, never mix it.
caution-plumbing = Check local rules before you run waste water anywhere or connect to a tap (backflow). Leave plumbing to a licensed plumber.
caution-frost = Ice ruins membranes and splits housings. Keep the rig warm, or drain it the way its maker says (a dried-out membrane is ruined too).
caution-not-drinking = Purified water isn't drinking water.

danger-frozen = Don't run it frozen: a frozen membrane or housing splits. Let it thaw with the water off, then check for leaks. If it holds, run it to waste and text me a reading.
danger-burst = Water off at the tap, let the pressure off, keep clear. Water near anything electric: power off first, if you can do it dry. Repairs are for whoever is licensed for them; once it holds, run it to waste and text me a reading.
# GHS statements P305+P351+P338 (UN, Globally Harmonized System, annex 3): rinse for several minutes, cautiously; 15 or
# more is common practice, no source.
danger-chemical = Rinse it off with plenty of clean water now, for 15 minutes or more; eyes open under the water, off with wet clothes. Fumes: into fresh air. Then the local emergency or poison number, with the label at hand.
danger-electric = Stay clear and touch nothing: power off first, if you can do it dry. Poles and ladders well away from overhead lines. After a shock get medical help. Whoever is licensed looks at it before it runs again.
danger-hurt = Stop work and see to them first: first aid, and the local emergency number if it is more than a scratch.
danger-drink = No. Purified water isn't drinking water.

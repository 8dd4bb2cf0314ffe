# Cautions: the usual ones, short, each once a person. Local codes and licensed practice come first.

caution-height = Read and text from safe footing, never from a ladder or an edge.
caution-pressure = Before you open a housing: water off, relieve the pressure.
caution-chemicals = A new membrane may come in preservative: gloves and goggles, follow the label, run its first water to waste.
caution-preservative = Preservative: gloves and eye protection, follow its label, never mix.
caution-plumbing = Where waste water may go, and backflow protection: local code, licensed plumbers.
caution-frost = Frost ruins membranes and splits housings: keep the rig warm, or drain it as its maker says.
caution-not-drinking = Purified water is not drinking water.

danger-frozen = Don't run it frozen: a frozen membrane or housing splits. Let it thaw with the water off, then check for leaks.
danger-burst = Water off at the tap, let the pressure off, keep clear. Water near anything electric: power off first, if you can do it dry. Repairs are for whoever is licensed for them.
danger-hurt = Stop work and see to them first: first aid, and the local emergency number if it is more than a scratch.
danger-drink = No. Purified water isn't drinking water.

# Cautions: the usual ones, short, each once a person. Local codes and licensed practice come first.

caution-height = Read and text from safe footing, never from a ladder or an edge.
caution-pressure = Before you open a housing: water off, relieve the pressure.
caution-chemicals = A new membrane may come in preservative: gloves and goggles, follow the label, run its first water to waste.
caution-preservative = Preservative: gloves and eye protection, follow its label, never mix.
caution-plumbing = Where waste water may go, and backflow protection: local code, licensed plumbers.
caution-frost = Frost ruins membranes and splits housings: keep the rig warm, or drain it as its maker says.
caution-not-drinking = Purified water is not drinking water.

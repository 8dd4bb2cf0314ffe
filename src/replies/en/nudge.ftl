# The end of the day.

nudge = { $rig } worked today and is not flushed yet. Full waste, ten minutes.
nudge-flushed = Flushed
nudge-not-used = Not used
not-used-noted = { $rig }: not used today. Noted.

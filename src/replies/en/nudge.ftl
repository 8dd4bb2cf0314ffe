# The end of the day.

nudge = { $count ->
    [one] { $rigs } worked today and hasn't been flushed. Open the flush valve for ten minutes.
   *[other] { $rigs } worked today and haven't been flushed. Open each flush valve for ten minutes.
  }
nudge-again = { $count ->
    [one] { $rigs } still hasn't been flushed. Open the flush valve for ten minutes.
   *[other] { $rigs } still haven't been flushed. Open each flush valve for ten minutes.
  }
nudge-flushed = Flushed
nudge-later = In 30 minutes
nudge-not-used = Not used
nudge-put-off = { $rigs }: OK, I'll ask again at { $time }.
nudge-no-more = { $rigs }: I won't ask again today. When it's done, type: { $example }
nudge-not-yet = { $rigs }: I haven't asked about the flush today. When it's done, type: { $example }
not-used-noted = { $rig }: not used today. Logged.
missed-flush = It wasn't flushed ({ $day }): run it to waste for ten minutes first.
flush-left = Worked today and not flushed yet: { $rigs }.
flush-done = Flushed today: { $rigs }.
flush-none-worked = No hand-flushed rig has worked today.

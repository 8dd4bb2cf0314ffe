# The end of the day.

nudge = { $count ->
    [one] { $rigs } worked today and is not flushed yet. Flush valve open, ten minutes.
   *[other] { $rigs } worked today and are not flushed yet. Flush valve open, ten minutes each.
  }
nudge-again = { $count ->
    [one] { $rigs } is still not flushed. Flush valve open, ten minutes.
   *[other] { $rigs } are still not flushed. Flush valve open, ten minutes each.
  }
nudge-flushed = Flushed
nudge-later = In 30 minutes
nudge-not-used = Not used
nudge-put-off = { $rigs }: I ask once more at { $time }.
nudge-no-more = { $rigs }: I do not ask again today. When it is done, type: { $example }
nudge-not-yet = { $rigs }: I have not asked about the flush today. When it is done, type: { $example }
not-used-noted = { $rig }: not used today. Noted.
missed-flush = Missed its last flush ({ $day }): run it to waste for ten minutes first.
flush-left = Worked today and not flushed yet: { $rigs }.
flush-done = Flushed today: { $rigs }.
flush-none-worked = No rig that is flushed by hand has worked today.

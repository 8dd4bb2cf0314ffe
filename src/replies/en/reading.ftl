# The answer to a reading. Everywhere: verdict first, number next, what to do
# last; nothing that a thumb must scroll for. Numbers arrive as ready text.

reading-verdict = { $rig } { $percent } - { $state }
reading-verdict-short = { $rig } { $percent } - { $state } ({ $echo })
reading-no-rejection = { $rig } - kept as sent, but it gives no rejection. Rinse the cup and read again.
reading-verdict-di = { $rig } - { $ppm } ppm at the glass
reading-will-spot-slips = { $rig } - { $ppm } ppm will spot. Repack the resin tight before the next window: it is hardly used.
reading-will-spot = { $rig } - change the resin before the next window: { $ppm } ppm will spot.
reading-will-spot-no-resin = { $rig } - { $ppm } ppm at the glass will spot, and no resin follows the RO.
echo-membrane = tap { $feed } -> RO { $permeate } ppm
echo-membrane-glass = tap { $feed } -> RO { $permeate } -> glass { $product } ppm
echo-di = tap { $feed } -> glass { $product } ppm
rejection-part = rejection { $percent } - { $state }
change-up = up { $points } since { $day }
change-down = down { $points } since { $day }
change-none = same as { $day }
taken-on = counted for { $day }
flush-reminder = Flush before you roll up.
advice-no-resin-spots = The glass gets this water as it is: { $ppm } ppm may spot.
advice-read-again = Far from its trend of about { $percent } %. Let it run 5 minutes, rinse the cup, read again.
advice-back = Back where it was before { $day }. One more reading like it to be sure.
deed = { $what }: { $why }.
deed-alone = { $what }.
deed-short = { $told }; { $what }
readings-to-go = { $count ->
    [one] One more reading, and I can tell.
   *[other] { $count } more readings, and I can tell.
  }
advice-unproven = Low, but too few readings to blame the membrane. Check hoses and O-rings, rinse the cup, read again.
advice-renewed = That reads like a new membrane. Is there one? Type: { $rig } new membrane - { $rig } same membrane

state-good = good
state-fading = fading
state-due = plan a new one
state-spent = worn out
state-unproven = too early to tell
state-fault = look for a leak
state-doubtful = read again
state-back = back where it was

corrected = Corrected.
withdrawn-reading = Withdrawn: { $rig }, { $echo }. It stays in the record, but no longer counts.
withdrawn-service = Withdrawn: { $rig }, { $what }.
moved-without-ro = { $rig } has a membrane, so its RO reading is missing. Nothing was changed. Send all of it: { $example } 12
nothing-to-withdraw = Nothing of yours from the last 12 hours to take back.
put-back-reading = Put back: { $rig }, { $echo }.
put-back-service = Put back: { $rig }, { $what }.
nothing-to-put-back = Nothing of yours was withdrawn in the last 12 hours.
used-up = { $rig }: change it before the next window, and text it once it is done. Nothing was recorded.
left-standing = Left as it was.
dropped = Dropped. Nothing was recorded.

# The answer to a reading. Everywhere: verdict first, number next, what to do
# last; nothing that a thumb must scroll for. Numbers arrive as ready text.

reading-verdict = { $rig } { $percent } – { $state }
reading-verdict-short = { $rig } { $percent } – { $state } ({ $echo })
reading-no-rejection = { $rig }: saved as sent, but these numbers can't be right for a rejection. Rinse the cup and read again.
reading-verdict-di = { $rig } – { $ppm } ppm at the glass
reading-will-spot-slips = { $rig }: repack the resin tight before the next window, { $ppm } ppm will spot. It's nearly new, so it's loose, not used up.
reading-will-spot = { $rig }: change the resin before the next window, { $ppm } ppm will spot.
reading-will-spot-no-resin = { $rig }: { $ppm } ppm at the glass will spot, and there's no resin to catch it.
echo-membrane = tap { $feed } → RO { $permeate } ppm
echo-membrane-glass = tap { $feed } → RO { $permeate } → glass { $product } ppm
echo-di = tap { $feed } → glass { $product } ppm
rejection-part = rejection { $percent } – { $state }
change-up = up { $points } since { $day }
change-down = down { $points } since { $day }
change-none = steady since { $day }
taken-on = logged for { $day }
flush-reminder = Flush before you pack up.
advice-no-resin-spots = The glass gets this water as it is: { $ppm } ppm may spot.
deed = { $what }: { $why }.
deed-alone = { $what }.
deed-short = { $told }; { $what }
readings-to-go = { $count ->
    [one] One more reading, and I can tell.
   *[other] { $count } more readings, and I can tell.
  }

state-good = good
state-fading = fading
state-due = plan a new one
state-spent = worn out
state-unproven = too early to tell
state-fault = look for a leak
state-doubtful = read again
state-back = back to normal

corrected = Corrected:
withdrawn-reading = Undone: { $rig }, { $echo }. Kept on file, not counted.
withdrawn-service = Undone: { $rig }, { $what }.
moved-without-ro = { $rig } has a membrane, so its RO reading is missing. I changed nothing. Send all of it: { $example } 12
nothing-to-withdraw = You've sent nothing in the last 12 hours that I can undo.
put-back-reading = Put back: { $rig }, { $echo }.
put-back-service = Put back: { $rig }, { $what }.
nothing-to-put-back = You've undone nothing in the last 12 hours.
used-up = { $rig }: change it before the next window, and text me when it's done. Nothing logged.
left-standing = OK, I've left it as it was.
dropped = OK, not logged.

# Everything the bot says, in English. Verdict first, number next, what to do
# last; nothing that a thumb must scroll for. Numbers arrive as ready text.

## The reading

reading-verdict = { $rig } { $percent } - { $state }
reading-verdict-short = { $rig } { $percent } - { $state } ({ $echo })
reading-no-rejection = { $rig } - kept as sent, but it gives no rejection. Rinse the cup and read again.
reading-verdict-di = { $rig } - { $ppm } ppm at the glass
reading-will-spot = { $rig } - change the resin before the next window: { $ppm } ppm will spot.
echo-membrane = tap { $feed } -> RO { $permeate } ppm
echo-membrane-glass = tap { $feed } -> RO { $permeate } -> glass { $product } ppm
echo-di = tap { $feed } -> glass { $product } ppm
rejection-part = rejection { $percent } - { $state }
change-up = up { $points } since { $day }
change-down = down { $points } since { $day }
change-none = same as { $day }
taken-on = counted for { $day }
flush-reminder = Flush before you roll up.
advice-wearing = Fading: keep an eye on it.
advice-due = Weigh a new membrane against the resin it saves.
advice-spent = Under 80 %: time for a new membrane, unless something leaks. Check hoses and O-rings first.
advice-read-again = Far from its trend of about { $percent } %. Let it run 5 minutes, rinse the cup, read again.
advice-check = The RO has jumped since { $day }. Wear is slow; a jump is usually a hose, an O-ring or a fitting.
    Let it run 5 minutes, rinse the cup, read again.
advice-renewed = That reads like a new membrane. If there is one, type: { $rig } new membrane

state-sound = sound
state-wearing = wearing
state-due = due
state-spent = spent
state-unproven = unproven
state-check = check first
state-doubtful = read again

corrected = Corrected.
withdrawn-reading = Withdrawn: { $rig }, { $echo }. It stays in the record, but no longer counts.
withdrawn-service = Withdrawn: { $rig }, { $what }.
nothing-to-withdraw = Nothing of yours from the last 12 hours to take back.
dropped = Dropped. Nothing was recorded.

## Services

service-noted = { $rig }: { $what }. Noted.
service-resin = resin changed
service-repack = resin repacked
service-membrane = new membrane
service-prefilter = prefilters changed
service-flush = flushed
service-oring = O-ring replaced

## Questions to the crew

ask-which-rig = Which rig?
ask-which-rig-named = Which one is "{ $name }"?
ask-unknown-rig = No rig called "{ $name }" here. Which one?
ask-fleet = On the fleet: { $rigs }.
ask-swapped = { $rig } - which way round? The RO is above the tap.
ask-which-is-which = { $rig } - which number is which? Like this: { $example }
ask-missing = { $rig } - one reading is missing. Like this: { $example }
ask-implausible = { $rig } - { $echo } is far from what it has been. Keep it?
ask-implausible-feed = { $rig } - the tap has been { $low }-{ $high }; you sent { $sent }. Keep it?
ask-which-rig-drafts = Got { $echo }. Which rig?
label-pair = tap { $feed }, RO { $permeate }
label-as-sent = as I sent it
label-keep = keep it
label-drop = drop it
label-product = { $ppm } is the glass

## Looking things up

rig-none-yet = { $rig } - no readings yet. Text: { $example }
rig-last-taken = { $echo }, { $day }
rig-services-resin = Last resin: { $resin }.
rig-services = Last resin: { $resin }. Last flush: { $flush }.
never = not logged
history-title = { $rig }, newest first
history-line = { $day }  { $echo }  { $percent }
history-line-di = { $day }  { $echo }
fleet-title = { $outfit }: { $count ->
    [one] 1 rig
   *[other] { $count } rigs
  }
fleet-line-none = { $rig } - no readings yet
fleet-empty = No rigs yet. An owner or lead types: add rig heron
shopping-title = By the readings:
shopping-line = { $rig }: a new membrane ({ $percent } - { $state })
shopping-none = No membrane is due by the readings. Resin I cannot count yet: look at the glass readings.
shopping-resin = Resin I cannot count yet: look at the glass readings.
quiet-title = No reading for three days or more:
quiet-line = { $rig }, { $day }
quiet-none = Every rig was read within three days.


## The membrane

membrane-level = { $rig } { $percent } ({ $low }-{ $high }) - { $state }
membrane-trend = Loses about { $points } points a year.
membrane-steady = No wear to be seen.
membrane-due-within = Due about { $likely } ({ $early } to { $late }).
membrane-due-from = Due about { $likely }, not before { $early }.
membrane-due-crossed = The due line is crossed: weigh a new membrane against the resin it saves.
membrane-due-far = Not due within three years.
membrane-due-unknown = When it is due is not yet known: that takes eight readings over 45 days.
membrane-basis = { $readings ->
    [one] From 1 reading
   *[other] From { $readings } readings
  }, corrected for cold water and weak pressure where you gave them.
membrane-not-yet = { $rig }: too few readings to tell, { $readings } so far. It takes three, or a logged new membrane.

## The outfit

outfit-unnamed = My outfit
welcome-owner = This outfit is yours.
    1. Add your rigs: add rig heron
    2. Take two readings, tap and RO outlet, and text them: heron 180 12
    3. Let your crew in: invite
    Local time is { $zone }. Another one: zone Europe/Madrid
    Give the outfit a name: name Blue Ladder
    Read and text from safe footing, never from a ladder or an edge.
welcome-crew = You are on { $outfit } as { $role }.
    Text a rig and two readings, tap first: { $example }
    Read and text from safe footing, never from a ladder or an edge.
joined = { $name } joined as { $role }.
already-in = You are on { $outfit } already. To change outfits, first type: leave
bad-link = That link is used up or has expired. Ask for a new one.
stranger = This bot keeps water readings for window-cleaning crews. To join one, open the invite link from its owner.
invite = Share this with your crew. It lets { $uses } people in as { $role } and works for 7 days:
    { $link }
invite-start-text = Or they type to the bot: { $text }
rig-added = { $rig } is on the fleet. Text its readings: { $example }
rigs-added = On the fleet: { $rigs }. Text readings: { $example }
rig-exists = { $rig } is on the fleet already.
rig-name-bad = A rig's name has 1 to 30 letters or digits, and is not a number alone.
rig-removed = { $rig } is off the fleet. Its readings are kept.
rig-unknown = No rig called "{ $name }". On the fleet: { $rigs }.
rig-di-only = { $rig } has no membrane: its readings are tap and glass.
rig-has-membrane = { $rig } has a membrane: its readings are tap and RO.
rig-flushes-itself = { $rig } flushes itself: no more flush reminders.
rig-flushed-by-hand = { $rig } is flushed by hand: it gets reminders at the end of the day.
own-rig = { $rig } is your rig. Two numbers are enough now: 180 12
outfit-named = The outfit is called { $name }.
name-bad = An outfit's name has 1 to 60 characters.
zone-set = Local time is { $zone }: it is { $time } there.
zone-unknown = No zone called "{ $name }". Like this: zone Europe/Madrid
zone-near = No zone called "{ $name }". Did you mean { $near }?
day-ends-set = The working day ends at { $time }. Rigs that worked and were not flushed are asked about then.
day-ends-bad = Like this: day ends 17:00
people-title = { $outfit }:
people-line = { $name }, { $role }
left = You have left { $outfit }. Your readings stay with it.
last-owner = You are the only owner. The outfit cannot be left without one.
may-not = Only { $who } can do that.
who-owner = an owner
who-leads = an owner or lead
role-owner = owner
role-lead = lead
role-crew = crew

## Help and hints

help-crew = Text a rig and two readings, tap first: { $example }
    With the glass as third: { $example3 }
    Done something? heron flushed - heron new resin
    Wrong number? Edit your message, or type: undo
    Look: fleet - history heron - heron?
    How to read: let it run a few minutes, rinse the cup, tap first, then the hose that feeds the resin.
help-lead = Rigs: add rig heron - remove rig heron - heron flushes itself - heron di only
    People: invite - invite lead - people
help-owner = Outfit: name Blue Ladder - zone Europe/Madrid - day ends 17:00
hint = I read water. Like this: { $example }   More: help
voice = I cannot listen to voice notes. Type it: { $example }
picture = I cannot read pictures. Type it: { $example }
trouble = Something went wrong on my side, and this message was not counted. Please type it again.
press-closed = That question is closed. Type it instead.
press-not-yours = That button is for somebody else.

## The end of the day

nudge = { $rig } worked today and is not flushed yet. Full waste, ten minutes.
nudge-flushed = Flushed
nudge-not-used = Not used
not-used-noted = { $rig }: not used today. Noted.

## Days

today = today
earlier-today = earlier today
yesterday = yesterday
weekday = { $day ->
    [1] Monday
    [2] Tuesday
    [3] Wednesday
    [4] Thursday
    [5] Friday
    [6] Saturday
   *[7] Sunday
  }
date = { $day } { $month ->
    [1] Jan
    [2] Feb
    [3] Mar
    [4] Apr
    [5] May
    [6] Jun
    [7] Jul
    [8] Aug
    [9] Sep
    [10] Oct
    [11] Nov
   *[12] Dec
  }
date-year = { $date } { $year }
month-year = { $month ->
    [1] Jan
    [2] Feb
    [3] Mar
    [4] Apr
    [5] May
    [6] Jun
    [7] Jul
    [8] Aug
    [9] Sep
    [10] Oct
    [11] Nov
   *[12] Dec
  } { $year }

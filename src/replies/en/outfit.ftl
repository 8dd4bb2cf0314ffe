# The outfit.

outfit-unnamed = My outfit
welcome-crew = You're in { $outfit } as { $role }.
    Text a rig and two readings, tap first: { $example }
joined = { $name } joined as { $role }.
already-in = You're in { $outfit } already. To change outfits, first type: leave
bad-link = That link is used up or has expired. Ask for a new one.
stranger = This bot keeps water readings for window-cleaning crews. To join one, open the invite link from its owner.
stranger-in-group = I don't know you yet, so I didn't log that. Open the invite link from your owner or lead, then send it again.
invite-start-text = Or they type to the bot: { $text }
rig-renamed = { $old } is called { $rig } from now on. All its readings stay with it.
rig-added = Added { $rig }. Send readings like this: { $example }
rigs-added = Added: { $rigs }. Send readings like this: { $example }
rig-back = { $rig } is back, with everything I had kept of it.
rig-exists = You already have { $rig }.
rig-name-bad = A rig's name has 1 to 30 letters or digits, and isn't a number alone.
rig-removed = { $rig } removed. Its readings are kept.
rig-unknown = No rig called "{ $name }". Your rigs: { $rigs }.
rig-di-only = { $rig } has no membrane: its readings are tap and glass.
rig-has-membrane = { $rig } has a membrane: its readings are tap and RO.
rig-flushes-itself = { $rig } flushes itself: no more flush reminders.
rig-flushed-by-hand = { $rig } is flushed by hand: I'll remind you at the end of the day.
own-rig = { $rig } is your rig. Two numbers are enough now: 180 12
outfit-named = The outfit is called { $name }.
name-bad = An outfit's name has 1 to 60 characters.
zone-set = Local time is { $zone }: it's { $time } there.
zone-unknown = No zone called "{ $name }". Like this: zone Europe/Madrid
zone-near = No zone called "{ $name }". Did you mean { $near }?
day-ends-set = The working day ends at { $time }. I'll ask then about rigs that worked and weren't flushed.
people-title = { $outfit }:
people-line = { $name }, { $role }
left = You've left { $outfit }. Your readings stay with it.
last-owner = You're the only owner, and an outfit needs one.
    First make somebody else an owner (make NAME owner), or close the outfit (close outfit).
may-not = Only { $who } can do that.
who-owner = an owner
who-leads = an owner or lead
role-owner = owner
role-lead = lead
role-crew = crew

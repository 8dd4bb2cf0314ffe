# People: invites, roles, the crew's chat, whose rig is whose.

invite-one = Send this to one person. It makes them { $role } and works for { $span }:
    { $link }
invite-several = Share this with your crew. It lets { $uses } people in as { $role } and works for { $span }:
    { $link }
invite-how = You can also type: invite lead | invite 2 days | invite 5 people | invite once
span-days = { $count ->
    [one] 1 day
   *[other] { $count } days
  }
span-hours = { $count ->
    [one] 1 hour
   *[other] { $count } hours
  }
invites-title = Open invites:
invites-line = { $role }, { $uses ->
    [one] one more person
   *[other] { $uses } more people
  }, until { $day }, by { $name }
invites-none = No open invites. To make one: invite
invites-cancel-hint = To end them: cancel invites
invites-cancelled = { $count ->
    [0] There was no open invite.
    [one] The open invite no longer works.
   *[other] { $count } open invites no longer work.
  }

person-removed = { $name } has been removed. Their readings stay.
    Open invites no longer work. For a new one: invite
you-were-removed = You're no longer in { $outfit }. Your readings stay with it.
remove-yourself = To leave yourself, type: leave
ask-remove-whom = Which one? Or type: remove { $example }
ask-whom = Which one? Or type the number behind the name: { $example }
numbered-person = { $number } { $name }, { $role }
hand-over-sure = { $name } will be an owner, and you a lead. Sure?
    Tap the button, or type: { $text }
hand-over-text = hand over to { $typed }, yes
hand-over-button = Hand over
handed-over = { $name } is an owner now. You're a lead.
hand-over-to-yourself = You're an owner already.
role-already = { $name } is { $role } already.
role-set = { $name } is now { $role }.
your-role = You're now { $role } in { $outfit }. What you can type: help
nobody-called = There's nobody called "{ $name }" here. Who is in: people
nobody-but-a-rig = Nobody's called that. For the rig, type: remove rig { $rig }

own-rig-today = You're on { $rig } today. Two numbers are enough until midnight: 180 12
own-rig-none = You have no rig of your own now. Name the rig each time: { $example }

link-in-group = Add me to your crew's group and type it there: link crew chat
chat-taken = Another business uses this chat. Its owner can free it with: unlink chat
chat-linked = This is { $outfit }'s crew chat now. Readings count here as they do in private: { $example }
    Reminders that reach nobody in private come here. To end it: unlink crew chat
chat-privacy = But I can't see ordinary messages here yet: in groups Telegram shows me only commands and replies to me.
    Make me an administrator of this group. Or ask my host to switch privacy mode off at @BotFather (/setprivacy), then take me out of the group and add me again.
chat-none = No crew chat is linked. In the group, type: link crew chat
chat-unlinked = No crew chat is linked any more. Readings in groups still count.

label-new-membrane = New membrane
label-same-membrane = Same membrane
same-membrane-noted = { $rig }: OK, same membrane. I won't ask again.
resets-membrane = Counting from fresh.
resets-membrane-from = Counting from fresh since { $day }.
resets-resin = The resin count restarts now.
resets-resin-from = The resin count restarts from { $day }.

forget-sure = I'll delete your name, language and chat for good and remove you. Your readings stay, without a name. Sure?
    Tap the button, or type: forget me, yes
forget-button = Forget me
forget-last-owner = You're the only owner. First make somebody else one (make NAME owner), or close the outfit (close outfit).
forgotten = Done. You're removed and your name is gone. Thanks for the readings.

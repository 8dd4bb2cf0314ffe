# Setting up: the questions of the guide. The first line of each is the
# question and is also said alone, when something else came in between.

setup-welcome = This outfit is yours. I ask a few things, one at a time, and each can wait: skip, or stop.
setup-private = I set up an outfit one to one. Write to me there: set up

setup-name = What is the outfit called?
setup-country = Which country do you work in?
    It sets units, currency and clock. Not listed? Type it.
setup-units = Using { $units }. To change one, type it, like: meter uS
setup-zone = What time is it where you work?
    Tap it, or type a city.
setup-rigs = Which rigs do you have?
    All names in one message, like: heron, otter. A pasted list is fine too.
setup-add-rig = Add { $rig }
setup-line-bad = I didn't understand "{ $line }": no rig was added for it.
setup-reading = Try it whenever you like, tap first, then the RO outlet.
    Let it run a few minutes and rinse the cup. The RO outlet is the hose that feeds the resin.
    The rest of the set-up takes about two minutes.
setup-reading-known = Go on with the set-up? About two minutes.
setup-reading-short = Go on with the set-up?
setup-reading-done = That's all a crew has to text. Go on with the set-up? About two minutes.
setup-hours = Is this right? { $facts }
    Or type what's different, like: mon-sat, day ends 16:30
setup-working-days = Which days do you work?
setup-day-ends = When does the working day end?
    Whoever has not flushed by then is reminded.
setup-digest = When do you want the weekly digest?
    Or type: digest off

setup-facts = Is this right for { $rig }? { $facts }
    Or type what's different, like: 2 membranes, flushes itself, lying. Without a membrane: DI only
setup-kind = { $rig }: what does it run on?
setup-membranes = { $rig }: how many membranes?
setup-flush = { $rig }: how is the membrane flushed?
setup-stands = { $rig }: is the resin bottle upright or on its side?
    On its side, water slips over loose resin.
setup-resin = { $rig }: how much resin does it hold?
    I need it to say how long the resin lasts.
setup-rated = { $rig }: what is one membrane rated for?
    It's on its label, like: 150 gpd at 77 F 60 psi
setup-prefilters = { $rig }: how often do you change the prefilters?
setup-same = { $rigs }: same as { $like }.
setup-rig-done = { $rig } is set up. To see it: { $name } settings

setup-membrane-price = What does one new membrane cost you?
    Like: 180. I need it to say when a new one pays for itself.
setup-resin-price = What does a litre of resin cost you?
    Like: 9. Or by the bag: 25 litres cost 225. I need it to say what waiting costs.
setup-resin-price-feet = What does a cubic foot of resin cost you?
    Like: 250. Or with its unit: 9 a litre. I need it to say what waiting costs.
setup-litres = About how much water does a rig make on a working day?
    A rough figure is fine. For one rig only: { $example }
setup-crew = Invite your crew now?
    They open a link and text a rig with two numbers.
setup-done = The outfit is set up. To see and change it all: settings
    One rig, with prefilters and rated flow: set up { $rig }

setup-not-understood = I didn't get "{ $text }".
setup-more-rigs = More rigs? Type: add rigs { $names }
setup-stopped = Fine, that can wait. Readings work all the same. To go on: set up
setup-waits = The rest of the set-up waits. To go on: set up

setup-skip = Skip
setup-go-on = Go on
setup-later = Later
setup-fits = Yes, that's right
setup-one-by-one = One by one
setup-same-as = Same as { $rig }
setup-all-same = All the same
setup-invite = Invite
setup-di-only = DI only
setup-by-hand = flushed by hand
setup-by-itself = flushes itself
setup-half-cubic-foot = 0.5 cubic feet
setup-cubic-foot = 1 cubic foot

country-name = { $code ->
    [US] United States
    [GB] United Kingdom
    [IE] Ireland
    [CA] Canada
    [AU] Australia
    [NZ] New Zealand
    [ZA] South Africa
    [ES] Spain
    [MX] Mexico
    [PT] Portugal
    [FR] France
    [DE] Germany
    [AT] Austria
    [CH] Switzerland
    [IT] Italy
    [NL] Netherlands
    [BE] Belgium
    [LU] Luxembourg
    [PL] Poland
    [CZ] Czechia
    [HU] Hungary
    [RO] Romania
    [SE] Sweden
    [NO] Norway
    [DK] Denmark
    [FI] Finland
    [IS] Iceland
    [GR] Greece
    [JP] Japan
    [SG] Singapore
    [BR] Brazil
    [AR] Argentina
    [CL] Chile
    [CO] Colombia
    [PE] Peru
    [UY] Uruguay
    [CR] Costa Rica
    [DO] Dominican Republic
   *[other] { $code }
  }

-- One business: its people, rigs and hours.
create table outfits (
    id integer primary key autoincrement,
    name text not null,
    zone text not null,
    day_ends text not null,
    us_to_ppm double precision not null,
    degrees text not null,
    created_at bigint not null
);

-- Somebody whom the bot knows: the platform's id, first name and language, and nothing else.
create table people (
    id integer primary key autoincrement,
    address text not null unique,
    chat text not null,
    first_name text not null,
    language text,
    outfit_id bigint references outfits (id),
    role text,
    own_rig_id bigint,
    nudged_rig_id bigint,
    nudged_at bigint,
    joined_at bigint not null
);
create index people_of_outfit on people (outfit_id);

-- A link that lets somebody in, kept as a hash. No outfit: it founds a new one.
create table invites (
    token_hash text primary key,
    outfit_id bigint references outfits (id),
    role text not null,
    expires_at bigint not null,
    uses_left bigint not null,
    created_at bigint not null
);

create table rigs (
    id integer primary key autoincrement,
    outfit_id bigint not null references outfits (id),
    name text not null,
    folded_name text not null,
    di_only_at bigint,
    flushes_itself_at bigint,
    added_at bigint not null,
    removed_at bigint
);
create unique index rigs_by_name on rigs (outfit_id, folded_name) where removed_at is null;

-- Feed and permeate at one time on one rig. A withdrawn reading stays, marked.
create table readings (
    id integer primary key autoincrement,
    outfit_id bigint not null references outfits (id),
    rig_id bigint not null references rigs (id),
    person_id bigint not null references people (id),
    source_key text not null,
    taken_at bigint not null,
    heard_at bigint not null,
    feed_ppm double precision not null,
    permeate_ppm double precision,
    product_ppm double precision,
    feed_raw_us double precision,
    permeate_raw_us double precision,
    product_raw_us double precision,
    temperature_c double precision,
    pressure_kpa double precision,
    permeate_lpm double precision,
    waste_lpm double precision,
    withdrawn_at bigint
);
create index readings_of_rig on readings (rig_id, taken_at, id) where withdrawn_at is null;
create index readings_of_message on readings (source_key);
create index readings_of_person on readings (person_id, heard_at);

-- Something done to a rig: membrane, resin, repack, prefilter, flush, oring.
create table services (
    id integer primary key autoincrement,
    outfit_id bigint not null references outfits (id),
    rig_id bigint not null references rigs (id),
    person_id bigint not null references people (id),
    source_key text not null,
    what text not null,
    done_at bigint not null,
    heard_at bigint not null,
    minutes bigint,
    price_minor bigint,
    withdrawn_at bigint
);
create index services_of_rig on services (rig_id, what, done_at) where withdrawn_at is null;
create index services_of_message on services (source_key);
create index services_of_person on services (person_id, heard_at);

-- A question that waits for one person's answer.
create table questions (
    id integer primary key autoincrement,
    chat text not null,
    person_id bigint not null references people (id),
    ask text not null,
    source_key text not null,
    taken_at bigint not null,
    expires_at bigint not null,
    closed_at bigint
);
create index questions_open on questions (person_id, chat) where closed_at is null;

-- A button is an opaque token that says a text for the one who may press it.
create table buttons (
    token text primary key,
    outfit_id bigint not null references outfits (id),
    question_id bigint references questions (id),
    person_id bigint references people (id),
    says text not null,
    expires_at bigint not null
);
create index buttons_expiry on buttons (expires_at);

-- Whatever arrived once: its key, and for a message the version and a hash of the text.
create table heard (
    key text primary key,
    version bigint not null,
    text_hash text not null,
    heard_at bigint not null
);
create index heard_age on heard (heard_at);

-- What could never be processed, as it came.
create table dead (
    key text primary key,
    payload text not null,
    reason text not null,
    kept_at bigint not null
);

-- A chat's pace: when it may next be written to, and whether it shut us out.
create table chats (
    address text primary key,
    ready_at bigint not null,
    blocked_at bigint
);

-- Messages on their way out, in the order in which a chat must get them.
create table sends (
    id integer primary key autoincrement,
    chat text not null,
    body text not null,
    source_key text,
    remote_key text,
    queued_at bigint not null,
    ready_at bigint not null,
    lease_by text,
    leased_until bigint,
    tries bigint not null,
    finished_at bigint,
    failure text
);
create index sends_waiting on sends (chat, id) where finished_at is null;
create index sends_delivered on sends (remote_key) where remote_key is not null;

-- One due occurrence of a scheduled message; whoever inserts it first owns it.
create table slots (
    key text primary key,
    claimed_at bigint not null
);

-- A named right that one process holds at a time, and the shared pace of sending.
create table leases (
    name text primary key,
    holder text not null,
    until_at bigint not null
);
create table pace (
    name text primary key,
    second_at bigint not null,
    used bigint not null
);
insert into pace (name, second_at, used) values ('sends', 0, 0);

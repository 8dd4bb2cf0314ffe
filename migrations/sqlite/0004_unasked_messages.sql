-- Who was asked to flush which rig on which local date, and what came of it.
create table nudges (
    id integer primary key autoincrement,
    outfit_id bigint not null references outfits (id),
    rig_id bigint not null references rigs (id),
    on_date text not null,
    chat text not null,
    person_id bigint not null references people (id),
    asked_at bigint not null,
    again_at bigint not null,
    repeated_at bigint,
    not_used_at bigint
);
create unique index nudges_by_date on nudges (rig_id, on_date);
create index nudges_to_repeat on nudges (again_at) where repeated_at is null and not_used_at is null;

-- What was said unasked of a rig: each kind once, unless somebody wanted to
-- hear it again later.
create table notes (
    id integer primary key autoincrement,
    outfit_id bigint not null references outfits (id),
    rig_id bigint references rigs (id),
    kind text not null,
    told_at bigint not null,
    again_at bigint
);
create index notes_of_outfit on notes (outfit_id, told_at);

-- How often somebody was written to unasked on a local date.
create table unasked (
    person_id bigint not null references people (id),
    on_date text not null,
    count bigint not null,
    primary key (person_id, on_date)
);

-- What a digest told, so that the next one can say what came of it.
create table digests (
    outfit_id bigint not null references outfits (id),
    on_date text not null,
    told text not null,
    made_at bigint not null,
    primary key (outfit_id, on_date)
);
create index readings_of_outfit on readings (outfit_id, heard_at) where withdrawn_at is null;

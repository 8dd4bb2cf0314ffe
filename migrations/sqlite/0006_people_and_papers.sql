-- Who made an invite, so that its outfit can look through the open ones.
alter table invites add column person_id bigint references people (id);

-- The rig of one day, over the one that stays.
alter table people add column today_rig_id bigint;
alter table people add column today_until_at bigint;

-- Since when an outfit is closing; a week later all of it is deleted.
alter table outfits add column closing_at bigint;

-- What people did to the outfit itself: who came, went, was given another
-- role, what was imported. Names stand in people alone.
create table changes (
    id integer primary key autoincrement,
    outfit_id bigint not null references outfits (id),
    person_id bigint references people (id),
    what text not null,
    about text not null,
    changed_at bigint not null
);
create index changes_of_outfit on changes (outfit_id, id);

-- Rows that somebody wants taken in, until they say yes.
create table imports (
    id integer primary key autoincrement,
    outfit_id bigint not null references outfits (id),
    person_id bigint not null references people (id),
    source text not null,
    day_first bigint not null,
    offered_at bigint not null,
    settled_at bigint,
    taken_at bigint,
    undone_at bigint
);
create index imports_of_outfit on imports (outfit_id, id);

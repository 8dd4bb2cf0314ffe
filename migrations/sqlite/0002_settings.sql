-- What an owner or lead set, for the outfit or for one rig. Nothing is
-- overwritten: the newest row of a name holds, the older ones say who changed
-- what and when. An empty value puts the default back.
create table settings (
    id integer primary key autoincrement,
    outfit_id bigint not null references outfits (id),
    rig_id bigint references rigs (id),
    name text not null,
    value text not null,
    person_id bigint references people (id),
    set_at bigint not null
);
create index settings_of_outfit on settings (outfit_id, id);

-- What an import found and changed, so that it can be taken back whole: the
-- rigs that it added, traits and settings as they were.
alter table imports add column stood_before text;

-- An outfit's name and zone have a past, as the settings have. What came with
-- the outfit was set by nobody.
insert into settings (outfit_id, rig_id, name, value, person_id, set_at)
    select id, null, 'name', name, null, created_at from outfits;
insert into settings (outfit_id, rig_id, name, value, person_id, set_at)
    select id, null, 'zone', zone, null, created_at from outfits;

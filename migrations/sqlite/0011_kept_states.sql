-- Grows with everything that changes what is remembered of an outfit.
alter table outfits add column version bigint not null default 0;

-- The last number given to a row of a table whose numbers are drawn.
create table counters (
    name text primary key,
    used bigint not null
);
insert into counters (name, used)
    select 'sends', coalesce(max(id), 0) from sends
    union all select 'readings', coalesce(max(id), 0) from readings
    union all select 'services', coalesce(max(id), 0) from services
    union all select 'questions', coalesce(max(id), 0) from questions;

-- What a rig's readings and services came to, up to one of each. Only a shortcut: it can be made anew from the rows.
-- A state of another `shape` is one of another release, and one whose rows changed is deleted.
create table states (
    rig_id bigint primary key references rigs (id),
    shape bigint not null,
    upto_at bigint not null,
    upto_reading bigint not null,
    upto_service bigint not null,
    body text not null
);
create index services_by_time on services (rig_id, done_at, id) where withdrawn_at is null;

-- How far somebody is with setting up an outfit or a rig. `progress` says which
-- question is open, which were passed, and what waits behind them.
create table set_ups (
    person_id bigint primary key references people (id),
    outfit_id bigint not null references outfits (id),
    progress text not null,
    asked_at bigint not null,
    stopped_at bigint
);

-- Pictures and files on their way out, and the messages that carry them.
create table blobs (
    id integer primary key autoincrement,
    bytes blob not null,
    made_at bigint not null
);
create index blobs_age on blobs (made_at);
create table carried_blobs (
    blob_id bigint not null,
    send_id bigint not null,
    primary key (blob_id, send_id)
);

-- The command menus that a platform was given, so that it is told only of changes.
create table menus (
    place text primary key,
    entries_hash text not null
);

-- The language that somebody chose by typing, over the platform's.
alter table people add column chosen_language text;

-- Which caution was told to whom; each is told once.
create table cautions (
    person_id bigint not null references people (id),
    kind text not null,
    told_at bigint not null,
    primary key (person_id, kind)
);

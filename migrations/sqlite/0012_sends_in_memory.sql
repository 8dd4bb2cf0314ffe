-- The chat without its topic: what a block, a pause and the order of messages belong to.
alter table sends add column base text not null default '';
update sends set base = case when chat like '#%' then substr(chat, 1, instr(chat || '/', '/') - 1) else chat end;
drop index sends_waiting;
create index sends_unfinished on sends (lease_by, base, unasked_at) where finished_at is null;

-- What stands of a topic is its chat's; who noted a pause keeps it in memory more exactly.
delete from chats where address like '#%/%';
alter table chats add column paced_by text;
create index chats_left_alone on chats (address) where blocked_at is not null or ready_at > 0;

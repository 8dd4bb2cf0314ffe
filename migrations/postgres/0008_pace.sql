-- The pace of sending holds in any second, not only in whole ones: the claims
-- of the last second, as MILLISECONDS:COUNT, the oldest first.
alter table pace add column marks text not null default '';
alter table pace drop column second_at;
alter table pace drop column used;

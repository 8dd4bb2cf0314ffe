-- What nobody asked for waits behind the answers, so that ten thousand digests
-- of one minute hold up no reading.
alter table sends add column unasked_at bigint;

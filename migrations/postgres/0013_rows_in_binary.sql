-- What SQLite calls jsonb_each of an array: rows that are taken apart without being parsed once for each column.
-- Strict, so that it is not inlined and its number of rows is believed.
create or replace function jsonb_each(text) returns table (key text, value jsonb)
    language sql immutable strict rows 20
    as $$select (n - 1)::text, v from jsonb_array_elements($1::jsonb) with ordinality as t (v, n)$$;

-- What SQLite calls quote: a number as text that is read back as it was.
create or replace function quote(double precision) returns text
    language sql immutable as $$select coalesce($1::text, 'NULL')$$;

-- Ten questions to a bundle, answered from its database alone: one row of JSON for each, by name.
SELECT 'lash of a build', json_group_array(said) FROM (
  SELECT spec.place || ' ' || value.text AS said FROM spec JOIN value ON value.spec = spec.id AND part = 'window' AND value.form = 1
  WHERE build = 'ox-887~sb-23-11' AND entry = 'lash.exhaust' ORDER BY 1);
SELECT 'build of a serial number', json_group_array(build) FROM fit
  WHERE machine = 'tarnhawk-887' AND 2022 BETWEEN from_year AND to_year AND serial_prefix = 'TH22-'
  AND 500 BETWEEN coalesce(serial_from, 0) AND coalesce(serial_to, 999999999);
SELECT 'what a moved id is now', json_array(moved_to) FROM retired_id WHERE id = 'lash.inlet';
SELECT 'what a split id is now', json('["' || replace(moved_to, ' ', '","') || '"]') FROM retired_id WHERE id = 'charging-and-drain';
SELECT 'unconfirmed torques', json_group_array(said) FROM (
  SELECT build || ' ' || entry || ' ' || place AS said FROM spec
  WHERE entry LIKE 'torque.%' AND confirmation IN ('read-once', 'differs') ORDER BY 1);
SELECT 'statements by engine', json_group_object(engine, many) FROM (
  SELECT build.engine, count(*) AS many FROM spec JOIN build ON build.id = spec.build GROUP BY build.engine);
SELECT 'withheld', json_group_array(said) FROM (
  SELECT build || ' ' || entry || ' ' || place AS said FROM spec WHERE withheld IS NOT NULL ORDER BY 1);
SELECT 'where it was read', json_group_array(said) FROM (
  SELECT DISTINCT source.title || ', page ' || spec.page AS said FROM spec JOIN source ON source.id = spec.source
  WHERE entry = 'lash.exhaust' ORDER BY 1);
SELECT 'plug gaps up to 0.75 mm', json_group_array(build) FROM (
  SELECT DISTINCT build FROM spec JOIN value ON value.spec = spec.id AND part = 'window' AND value.form = 1
  WHERE entry = 'plug.gap' AND max_number <= 0.00075 ORDER BY 1);
SELECT 'limits tightened', json_group_array(said) FROM (
  SELECT engine || ' ' || of || ' ' || place || ' ' || after_text AS said FROM change WHERE kind = 'tightened' ORDER BY 1);

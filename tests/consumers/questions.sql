-- Ten questions to a bundle, answered from its database alone: one row of JSON for each, by name.
SELECT 'lash of a build', json_group_array(said) FROM (
  SELECT spec.place || ' ' || value.text AS said FROM spec JOIN value ON value.spec = spec.id AND part = 'window' AND value.form = 1
  WHERE build = 'ox-887~sb-23-11' AND entry = 'lash.exhaust' ORDER BY 1);
WITH asked (number) AS (VALUES (500), (2500)), may_have AS (
  SELECT number, build, rest, min(rest) OVER (PARTITION BY number) AS least FROM asked JOIN fit
  ON machine = 'tarnhawk-887' AND 2022 BETWEEN from_year AND to_year AND (serial_prefix IS NULL
    OR serial_prefix = 'TH22-' AND number BETWEEN coalesce(serial_from, 0) AND coalesce(serial_to, 999999999)))
SELECT 'build of a serial number', json_group_object('TH22-' || number, json(builds)) FROM (
  SELECT number, json_group_array(build) AS builds FROM may_have WHERE rest = least GROUP BY number);
SELECT 'what a moved id is now', json_object('id', json((SELECT json_group_array(now) FROM id_now WHERE id = 'clearance.inlet')),
  'lash', json((SELECT json_group_array(said) FROM (
    SELECT spec.place || ' ' || value.text AS said FROM spec JOIN value ON value.spec = spec.id AND part = 'window' AND value.form = 1
    WHERE build IN (SELECT now FROM id_now WHERE id = 'ox-887~sb-21-09') AND entry IN (SELECT now FROM id_now WHERE id = 'clearance.inlet')
    ORDER BY 1))));
SELECT 'what a split id is now', json_group_array(now) FROM (SELECT now FROM id_now WHERE id = 'charging-and-drain' ORDER BY 1);
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

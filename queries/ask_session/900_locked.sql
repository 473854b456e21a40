-- Settings under which an analyst's statement runs: no file but those attached, no extension, no way back
-- Parameter: files, those behind the views of the session. Names are looked up in the copy first, then among these views.
-- Reads and writes nothing.
SET search_path = 'plant.main,memory.main';
SET allowed_paths = $files;
SET enable_external_access = false;
SET lock_configuration = true;

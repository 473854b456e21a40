-- Settings under which an analyst's statement runs: no other file, no extension, no way back
-- Reads and writes nothing.
SET enable_external_access = false;
SET autoinstall_known_extensions = false;
SET autoload_known_extensions = false;
SET lock_configuration = true;

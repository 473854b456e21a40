"""Files in, checked frames of accepted and rejected rows out; nothing here opens the store."""

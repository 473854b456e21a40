"""The plant's DuckDB store: schema, merging, stamps, views and the published copy."""

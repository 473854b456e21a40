"""Many plants: what one plant published comes in, the same figures of all plants go out.

A plant publishes its stamped tables as Parquet into a lake; an engine runs the very files of
`queries/views` over all plants of the lake, DuckDB where it fits one machine, an existing Spark
where it does not.
"""

"""A plant in a notebook: its tables, views, answers and charts as methods of one object."""

"""Pure computing for display cases: no printing, no files, no terminal.

Data flows one way: text -> Job -> Problem (integers) -> Plan -> check. The map
of the modules is in DEVELOPERS.md. Nothing is re-exported here, so that
importing :mod:`solver.units` does not import ortools.
"""

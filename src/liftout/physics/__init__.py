"""Pure functions on coherent SI floats, one subject a file; names end in the unit.

Knows nothing of ours, tables included: coefficients of published formulas come in as arguments.
"""

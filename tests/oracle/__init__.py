"""An independent second computation of the rules, held against the engine.

Built from the text of the case file and of the ``uk`` pack alone. Nothing here imports the
engine except the comparison in :mod:`tests.oracle.compare`, and no geometry library is used:
only arrays, plain inequalities, sampling and bisection.
"""

"""An independent second computation of the rules, held against the engine.

Built from the text of the case file, of the ``uk`` pack and of FACTS 5 (``de``) alone. Nothing here
imports the engine except the comparison in :mod:`tests.oracle.compare`, and no geometry library is used:
only arrays, plain inequalities, sampling and bisection.
"""

"""What is not exactly known, in one algebra: one floor below setting, gauging and identifying.

Every source of doubt has a key, and an `Estimate` (calc/estimate.py) carries what each of them contributes.
`doubts.py` lists the sources with their defaults and whether they stay the same from job to job; `task.py`
says what is to be set and proved, `goal.py` what counts as right, `budget.py` how far out it comes and why;
`chance.py` and `densities.py` are the true spreads of sums of doubts; `figures.py` shows an Estimate.
"""

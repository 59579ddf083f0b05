# Made permutations.csv: pip install sympy==1.14.0; python3 permutations.py > permutations.csv
import random; from sympy.combinatorics import Permutation; random.seed(7)
for n in [1, 2, 3, 5, 8, 12, 12, 16, 16, 20, 24, 24, 24, 60, 120, 200, 200]:
    to = random.sample(range(n), n); p = Permutation(to); k = random.randrange(10**9)
    print(*to, sep=" ", end=";"); print(p.order(), k, sep=";", end=";"); print(*(p**k).array_form, sep=" ")

"""How fast shapes are solved: beside the bars, beside the bound that memory sets, and beside two other ways on the same energy."""

from pathlib import Path
from time import perf_counter

import numpy as np

import hookwright
import manuscripts

BARS = (
    ("sheet of 3,000 stitches solved", manuscripts.blanket, 3_000, 0.3),
    ("tube of 3,000 stitches solved", manuscripts.tube, 3_000, 0.3),
    ("gathered hat of 3,000 stitches on a head solved", manuscripts.gathered_hat, 3_000, 0.3),
    ("ball of 1,400 stitches, filled, solved", lambda _: manuscripts.ball(60), 1_400, 0.3),
    ("sheet of 100,000 stitches solved, with building its matrices", manuscripts.blanket, 100_000, 4.0),
    ("tube of 100,000 stitches solved", manuscripts.tube, 100_000, 10.0),
    ("gathered tube of 100,000 stitches solved", manuscripts.gathered_hat, 100_000, 10.0),
)


def solved(seconds, measured, rounds: int):
    """Pieces solved from their worked rows, beside the bars."""
    from hookwright.shape import form

    for said, made, stitches, bar in BARS:
        report = hookwright.check(made(stitches), terms="US")
        last = []
        took = seconds(lambda: last.append(form(report.fabrics[0], pattern=report.pattern)), rounds if stitches < 50_000 else 1, 1)  # noqa: B023 - used at once
        surface = last[-1]
        yield measured(said, took, bar, "s", note=f"{len(surface.at):,} nodes, {surface.steps} steps, {'at rest' if surface.settled else 'not settled'}, "
                       f"strain {surface.strain['rms']:.3f} rms")


def beside_memory(seconds, measured, rounds: int):
    """One step of the solver on the sheet of 100,000 stitches against the time in which what it must move can be moved."""
    from hookwright.shape.assembling import assembled
    from hookwright.shape.solving import Energy, Load, descend, factored

    report = hookwright.check(manuscripts.blanket(100_000), terms="US")
    piece = assembled(report.fabrics[0], pattern=report.pattern)
    flat = piece.at[:, :2].copy()
    rng = np.random.default_rng(1)
    flat += rng.standard_normal(flat.shape)
    solve = factored(piece.springs)
    energy = Energy(piece.springs, Load())
    steps = 20
    took = seconds(lambda: descend(energy, solve, flat, steps, level=-1.0), max(rounds // 2, 1), 1) / steps
    n, matrix = len(flat), piece.springs.matrix
    from scipy.sparse.linalg import splu

    from hookwright.shape import solving

    weighted = matrix.multiply(np.sqrt(piece.springs.stiff)[:, None]).tocsr()
    k = (weighted.T @ weighted).tocsc()
    from scipy.sparse import csc_array, eye_array

    factor = splu(csc_array(k + 1e-3 * eye_array(n, format="csc")).astype(np.float32), **solving._SYMMETRIC)
    moved = factor.L.nnz * 4 * 2 + 2 * matrix.nnz * 12 + 8 * 2 * n * (4 * solving.MEMORY + 12)  # of the factor the numbers only: its index is shared by many
    block = np.ones(60_000_000)  # zeros never written lie on one page, which is read from the cache
    other = np.zeros_like(block)
    rate = 2 * block.nbytes / seconds(lambda: np.copyto(other, block), 3, 1)
    bound = moved / rate
    yield measured("one step on the sheet of 100,000 beside moving its numbers once", took / bound, 5, "x",
                   note=f"{took * 1000:.0f} ms beside {bound * 1000:.1f} ms for {moved / 1e6:.0f} MB at {rate / 1e9:.1f} GB/s")


def beside_others(seconds, measured, rounds: int):
    """The same energy from the same start, until all but a thousandth of what there is to fall has fallen: scipy's L-BFGS-B and plain local-global."""
    from scipy.optimize import minimize

    from hookwright.shape.assembling import assembled
    from hookwright.shape.solving import Energy, Load, descend, factored

    for said, text in (("tube of 3,000", manuscripts.tube(3_000)), ("shawl's lace of 4,200", None), ("gathered hat of 3,000, off the head", manuscripts.gathered_hat(3_000))):
        if text is None:
            text = (Path(__file__).parents[1] / "examples" / "causeway-shawl.md").read_text("utf-8")
        report = hookwright.check(text, terms="US")
        piece = assembled(report.fabrics[0], pattern=report.pattern, shown="free")
        start = piece.at + 0.05 * piece.width * np.random.default_rng(3).standard_normal(piece.at.shape)
        energy = Energy(piece.springs, Load())
        solve = factored(piece.springs)
        least = descend(energy, solve, start, 600, level=1e-6).energy
        goal = least + 0.001 * (energy(start)[0] - least)
        ours = _until(lambda tell: descend(tell, factored(piece.springs), start, 3000, level=-1.0), energy, goal)  # noqa: B023 - used at once
        n = start.size

        def flat(tell):
            def both(x):
                value, slope = tell(x.reshape(-1, 3))
                return value, slope.ravel()

            minimize(both, start.ravel(), jac=True, method="L-BFGS-B", options={"maxiter": 6000, "maxfun": 8000})  # noqa: B023 - used at once

        theirs = _until(flat, energy, goal)
        springs = piece.springs

        def local_global(tell):
            solve_k, x = factored(springs), start  # noqa: B023 - used at once
            back = springs.matrix.T.tocsr()  # noqa: B023 - used at once
            for _ in range(3000):
                tell(x)
                d = springs.matrix @ x  # noqa: B023 - used at once
                length = np.maximum(np.linalg.norm(d, axis=1), 1e-12)
                x = x - solve_k(back @ (d * (springs.stiff * (1 - springs.rest / length))[:, None]))  # noqa: B023 - used at once

        plain = _until(local_global, energy, goal)
        for other, took in (("scipy's L-BFGS-B", theirs), ("plain local-global", plain)):
            if took is None:
                yield measured(f"{said}: {other} beside ours", float("inf"), 1, "x", least=True, note=f"did not come so far in its steps; ours {ours:.2f} s")
            else:
                yield measured(f"{said}: {other} beside ours", took / ours, 1, "x", least=True, note=f"{took:.2f} s beside {ours:.2f} s, {n:,} unknowns")


class _Reached(Exception):
    pass


def _until(run, energy, goal):
    """Seconds until `run` first meets an energy of `goal`; None where it ends before."""
    started = perf_counter()

    def tell(x):
        value, slope = energy(x)
        if value <= goal:
            raise _Reached
        return value, slope

    try:
        run(tell)
    except _Reached:
        return perf_counter() - started
    return None


def all_of(seconds, measured, rounds: int):
    yield from solved(seconds, measured, rounds)
    yield from beside_memory(seconds, measured, rounds)
    yield from beside_others(seconds, measured, rounds)

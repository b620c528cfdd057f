"""Slab, cylinder and sphere that cool in a film, by FiPy: temperature of the middle as JSON on stdout."""

import json
import os
import sys
import warnings

warnings.filterwarnings("ignore")
os.environ["FIPY_SOLVERS"] = "scipy"

import fipy
from fipy import CellVariable, CylindricalGrid1D, DiffusionTerm, FaceVariable, Grid1D, ImplicitSourceTerm, SphericalGrid1D, TransientTerm

CELLS = 50
STEPS = 200


def middle(grid, biot, fourier):
    """Radius or half thickness 1, unit properties, from 1 toward 0 outside."""
    width = 1.0 / CELLS
    mesh = grid(nr=CELLS, Lr=1.0) if grid is not Grid1D else Grid1D(nx=CELLS, Lx=1.0)
    value = CellVariable(mesh=mesh, value=1.0)
    conducts = FaceVariable(mesh=mesh, value=1.0)
    conducts.setValue(0.0, where=mesh.exteriorFaces)
    # From the outermost cell's middle through its half and the film.
    leaves = biot / (1.0 + biot * 0.5 * width)
    outer = (mesh.facesRight * leaves * mesh.faceNormals).divergence
    equation = TransientTerm() == DiffusionTerm(coeff=conducts) - ImplicitSourceTerm(coeff=outer)
    for _ in range(STEPS):
        equation.solve(var=value, dt=fourier / STEPS)
    first, second = float(value.value[0]), float(value.value[1])
    return first - (second - first) / 8.0


found = []
for name, grid, biot in (("slab", Grid1D, 1.0), ("long cylinder", CylindricalGrid1D, 1.0), ("long cylinder", CylindricalGrid1D, 10.0), ("sphere", SphericalGrid1D, 1.0)):
    found.append({"of": name, "biot": biot, "fourier": 0.5, "middle": middle(grid, biot, 0.5)})
json.dump({"version": fipy.__version__, "middles": found}, sys.stdout)

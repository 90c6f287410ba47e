import subprocess
import sys


def test_small_measures_load_no_heavy_library() -> None:
    code = (
        "import sys, diagnose.measures.air, diagnose.measures.roots, diagnose.measures.feeding;"
        "print([m for m in ('numpy', 'scipy', 'pandas', 'pvlib') if m in sys.modules])"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "[]"

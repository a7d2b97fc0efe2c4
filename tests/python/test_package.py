    for name in ("conftest.py", "test_vehicle.py", "test_model.py", "test_arrays.py",
                 "test_answers.py", "test_check.py", "test_study.py"):  # fmt: skip
        if (ROOT / "tests/python" / name).exists():
            shutil.copy(ROOT / "tests/python" / name, tests)

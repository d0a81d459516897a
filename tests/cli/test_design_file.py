"""What the commands on a design file share."""

import pytest

from segkit.cli.design_file import amount, numbers, solved
from segkit.errors import InputError
from tests.cli.yard import BOULES, design


def test_faults_between_values_name_the_file(tmp_path):
    path = design(tmp_path, '[display]\nlayout = "8:.x"\n')
    with pytest.raises(InputError) as caught:
        solved(path)
    assert all(problem.file == str(path) for problem in caught.value.problems)


def test_numbers_are_the_worksheet():
    project = solved(BOULES)
    assert project.name == "boules_court"
    assert set(numbers(project)) == {line.name for line in project.lines}


def test_amounts_have_a_unit_unless_they_have_none():
    assert (amount(0.0140764, "A"), amount(4, "")) == ("0.01408 A", "4")

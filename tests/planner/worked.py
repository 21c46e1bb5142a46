"""Small collections for worked instances: every animal is grown, and the first season is at hand."""

from datetime import date

from explorer.collection import read_collection
from explorer.husbandry import Husbandry

TODAY = date(2026, 11, 25)


def collection(folder, *rows):
    """rows: (id, sex, genes) of grown animals without recorded parents."""
    lines = ["id,sex,genes,hatched,weight_g"]
    lines += [f"{key},{sex},{genes},2019-07-01,{2000 if sex == 'female' else 900}" for key, sex, genes in rows]
    path = folder / "worked.csv"
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return read_collection(path)


def care(eggs, male_wait=1, female_wait=1, **more):
    """Husbandry of the worked instances: hatchlings breed in the season after their own unless said otherwise."""
    return Husbandry(eggs=eggs, male_wait=male_wait, female_wait=female_wait, **more)

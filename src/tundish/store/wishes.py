"""What the trader always buys, and what never: kept for every job."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tundish.store.shelf import WISHES

if TYPE_CHECKING:
    from tundish.store.keep import Store


def wish(store: Store, key: str, *, always: bool = False, never: bool = False) -> None:
    """Keep an offer by its key, or a whole supplier, as always or never bought; neither lets it be chosen like any other."""
    kept = store.setting(WISHES) or {}
    favourites, avoided = set(kept.get("favourites", ())) - {key}, set(kept.get("never", ())) - {key}
    if never:
        avoided.add(key)
    elif always:
        favourites.add(key)
    store.keep_setting(WISHES, {"favourites": sorted(favourites), "never": sorted(avoided)})

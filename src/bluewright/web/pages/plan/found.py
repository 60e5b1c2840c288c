"""The plan of a garden as it stands, for its pages and its print."""

from __future__ import annotations

from django.utils import timezone

from bluewright.journal.bridge import planning
from bluewright.journal.models import Garden
from bluewright.journal.queries import plan as queries
from bluewright.science.plan.chain_record import ClothPlanAnswer
from bluewright.web.ui.of_bed import answer_of


def plan_found(garden: Garden) -> tuple[ClothPlanAnswer | None, str]:
    """What the wants take, and why that cannot be told where it cannot; neither where there is nothing to plan."""

    def reckon() -> ClothPlanAnswer | None:
        record = planning.plan_record(
            garden, wants=queries.wants(garden), basis=queries.basis(garden), today=timezone.localdate()
        )
        return None if record is None else planning.planned(record)

    return answer_of(reckon)

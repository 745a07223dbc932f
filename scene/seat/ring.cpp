#include "scene/seat/ring.h"

#include <algorithm>
#include <cassert>
#include <limits>

namespace lugline {

Solid squeezed_ring(const Component& ring) {
  assert(ring.ring.has_value());
  Solid solid = ring.solid;
  const double seated_m =
      ring.ring->in_bore ? solid.outer_m()
                         : std::ranges::min_element(solid.rings, {}, &SectorRing::inner_m)->inner_m;
  const double by_m = ring.ring->squeezed_m - seated_m;
  for (SectorRing& part : solid.rings) {
    part.inner_m = std::max(part.inner_m + by_m, 0.0);
    part.outer_m += by_m;
  }
  return solid;
}

namespace {

/// The seated ring without what of it is in the groove.
Solid within_land(const Component& ring) {
  Solid inside = ring.solid;
  for (SectorRing& one : inside.rings) {
    if (ring.ring->in_bore) {
      one.outer_m = std::min(one.outer_m, ring.ring->squeezed_m);
    } else {
      one.inner_m = std::max(one.inner_m, ring.ring->squeezed_m);
    }
  }
  std::erase_if(inside.rings, [](const SectorRing& one) { return one.inner_m >= one.outer_m; });
  return inside;
}

} // namespace

RingReport seat_ring(const Component& ring, bool ring_over, const Groove& groove,
                     double groove_base_m, const std::vector<Body>& below, double turn_rad) {
  assert(ring.ring.has_value());
  const RingFigures& figures = *ring.ring;
  RingReport report;
  report.waved = figures.waved();
  const double thickness_m = flat_height_m(ring);
  const double low_m = groove_base_m + groove.low_m;
  const double high_m = groove_base_m + groove.high_m;
  const double origin_m = -ring.solid.low_m(); // from lower face to datum
  report.loaded_m = groove.loads_up ? high_m - thickness_m : low_m;
  report.load_face_m = groove.loads_up ? high_m : low_m;

  if (figures.in_bore != groove.in_bore) {
    report.fate = RingFate::wrong_groove;
    return report;
  }
  const double too_wide_m =
      figures.in_bore ? figures.squeezed_m - groove.land_m : groove.land_m - figures.squeezed_m;
  if (too_wide_m > contact_tolerance_m) {
    report.fate = RingFate::will_not_pass;
    report.too_wide_m = too_wide_m;
    return report;
  }
  if (thickness_m > high_m - low_m + contact_tolerance_m) {
    report.fate = RingFate::too_thick;
    report.too_high_m = thickness_m - (high_m - low_m);
    return report;
  }

  const Shape squeezed(squeezed_ring(ring));
  DropQuestion question;
  question.moving.push_back({ring.id, &squeezed, 0, 0, spin_hand});
  question.below = below;
  const RestSpan rest = drop(question).at(turn_rad);
  const double rest_low_m =
      rest.rest_m ? *rest.rest_m - origin_m : -std::numeric_limits<double>::infinity();
  report.down_m = std::max(rest_low_m, low_m);
  if (rest_low_m > low_m) {
    report.held_by = rest.contact;
  }
  const double too_high_m = report.down_m - (high_m - thickness_m);
  if (too_high_m > contact_tolerance_m) {
    report.fate = RingFate::held_up;
    report.too_high_m = too_high_m;
    return report;
  }
  // Sprung open it may lie lower: what its edge rode over while it was squeezed is beside it now.
  const Shape sprung(within_land(ring));
  question.moving.front().shape = &sprung;
  const RestSpan settled = drop(question).at(turn_rad);
  const double settled_low_m =
      settled.rest_m ? *settled.rest_m - origin_m : -std::numeric_limits<double>::infinity();
  if (settled_low_m < rest_low_m) {
    report.down_m = std::max(settled_low_m, low_m);
    report.held_by = settled_low_m > low_m ? std::optional(settled.contact) : std::nullopt;
  }
  const double free_m = ring.solid.high_m() - ring.solid.low_m();
  report.height_m = std::min(free_m, high_m - report.down_m);
  if (figures.bevelled) {
    // The wedge takes up the groove's play where it is the right way up; the
    // other way up the ring's own figure says what is left.
    report.loaded_m = report.down_m;
    report.play_m = ring_over ? figures.reversed_play_m : 0;
  } else {
    report.play_m = std::max(
        groove.loads_up ? report.loaded_m - report.down_m : report.down_m - report.loaded_m, 0.0);
    if (figures.waved()) {
      report.play_m = std::min(report.play_m, std::max(high_m - report.down_m - free_m, 0.0));
    }
  }
  return report;
}

double flat_height_m(const Component& ring) {
  const double free_m = ring.solid.high_m() - ring.solid.low_m();
  return ring.ring && ring.ring->waved() ? std::min(ring.ring->thickness_m, free_m) : free_m;
}

Groove turned_over(const Groove& groove, double low_m, double high_m) {
  Groove result = groove;
  result.low_m = low_m + high_m - groove.high_m;
  result.high_m = low_m + high_m - groove.low_m;
  result.loads_up = !groove.loads_up;
  return result;
}

} // namespace lugline

// Bolts draw a part down onto what gives beneath it: a pump onto its gasket.
#include "scene/build/feature.h"
#include "scene/build/hang.h"
#include "scene/build/steps.h"

#include "scene/seat/drop.h"

#include <algorithm>

namespace lugline::build {

namespace {

/// What moves as one with a piece, and all the rest but for what gives beneath it.
struct Sides {
  std::vector<std::string> ids;
  std::vector<Body> moving;
  std::vector<Body> below;
};

/// What lies loose in what is drawn down goes down with it: gears in a pump.
void take_what_stands_on(const std::vector<Fitted>& pieces, const Groups& groups,
                         std::vector<bool>& with_it) {
  for (bool found = true; found;) {
    found = false;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      const auto under = std::ranges::find(pieces, pieces[i].stands_on, &Fitted::id);
      if (!with_it[i] && groups.of[i] != held_group && under != pieces.end() &&
          with_it[static_cast<std::size_t>(under - pieces.begin())]) {
        with_it[i] = true;
        found = true;
      }
    }
  }
}

Sides sides_of(Bench bench, const Fitted& part, const std::string& gives) {
  const PlaceState& place = bench.place();
  const Place* named = bench.workshop.unit().place(bench.step.place);
  const Groups groups =
      groups_of(bench.workshop, place.fitted, named == nullptr ? std::string() : named->base);
  const auto at = static_cast<std::size_t>(&part - place.fitted.data());
  std::vector<bool> with_it(place.fitted.size(), false);
  for (std::size_t i = 0; i < place.fitted.size(); ++i) {
    with_it[i] = i == at || (groups.of[at] != held_group && groups.of[i] == groups.of[at]);
  }
  take_what_stands_on(place.fitted, groups, with_it);
  Sides sides;
  for (std::size_t i = 0; i < place.fitted.size(); ++i) {
    const Fitted& piece = place.fitted[i];
    Body body{piece.id, &shape_of(bench.workshop, piece), piece.height_m, piece.turn_rad,
              with_it[i] ? spin_hand : spin_fixed};
    if (with_it[i]) {
      body.height_m -= part.height_m;
      sides.ids.push_back(piece.id);
      sides.moving.push_back(body);
    } else if (piece.id != gives) {
      sides.below.push_back(body);
    }
  }
  return sides;
}

bool gives_way(const Component& part) {
  return part.wave.has_value() || part.springs.has_value();
}

} // namespace

void draw_down(Bench bench) {
  const Step& step = bench.step;
  if (!step.press_to_m) {
    return;
  }
  const std::string& name = bench.workshop.label(step.part);
  PlaceState& place = bench.place();
  Fitted* part = place.find(step.part);
  if (part == nullptr) {
    bench.problem(name + " is not in, so it cannot be drawn down");
    return;
  }
  const double from_m = part->height_m;
  if (from_m < *step.press_to_m - contact_tolerance_m) {
    bench.problem(name + " is at " + mm(from_m) + " already, below the " + mm(*step.press_to_m) +
                  " to draw it down to");
    return;
  }
  const Fitted* under = place.find(part->stands_on);
  const bool gives = under != nullptr && gives_way(bench.workshop.part(under->id));
  const std::string giving = gives ? under->id : std::string();
  const Sides sides = sides_of(bench, *part, giving);
  DropQuestion question;
  question.moving = sides.moving;
  question.below = sides.below;
  const RestSpan rest = drop(question).at(0);
  double to_m = *step.press_to_m;
  if (rest.rest_m && *rest.rest_m > to_m + contact_tolerance_m) {
    bench.problem(name + " stops " + mm(*rest.rest_m - to_m) + " above where it is drawn to: " +
                  bench.workshop.label(sides.below[rest.contact.below].id) +
                  " stands in the way; nothing is forced, take it off again");
    to_m = std::min(*rest.rest_m, from_m);
  }
  for (const std::string& id : sides.ids) {
    place.find(id)->height_m -= from_m - to_m;
    bench.outcome.moved.push_back(id);
  }
  if (gives) {
    squash(bench, giving, from_m - to_m);
  }
  const Place* named = bench.workshop.unit().place(step.place);
  part->joint = {JointKind::retained, named == nullptr ? std::string() : named->base, false, ""};
}

} // namespace lugline::build

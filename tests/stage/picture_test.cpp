// The picture as text, before any GPU: who is in hand, where, keyed to what.

#include "scene/load/load.h"
#include "viewer/stage/stage.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace lugline;

namespace {

const Stage& stage() {
  static const Stage made = [] {
    const LoadReport report =
        load_unit(std::string(LUGLINE_ROOT) + "/assets-demo/hobspindle-three");
    REQUIRE(report.unit != nullptr);
    return Stage(report.unit);
  }();
  return made;
}

ViewState at(const std::string& step, double moment) {
  ViewState view;
  view.step = stage().unit().step_index(step);
  REQUIRE(view.step < stage().step_count());
  view.moment = moment;
  return view;
}

const PictureItem* item(const Picture& picture, const std::string& id) {
  const auto found = std::ranges::find(picture.items, id, &PictureItem::id);
  return found == picture.items.end() ? nullptr : &*found;
}

} // namespace

TEST_CASE("the same view gives the same text, and another moment another") {
  for (std::size_t i = 0; i < stage().step_count(); ++i) {
    ViewState view;
    view.step = i;
    const std::string once = text_of(stage().picture(view, 1.4));
    CHECK(once == text_of(stage().picture(view, 1.4)));
    view.moment = 1;
    const bool moves = stage().seconds(i) > 0;
    const bool base = stage().simulation().before(i).places.find(stage().unit().steps[i].place) ==
                      stage().simulation().before(i).places.end();
    INFO("step " << stage().unit().steps[i].id);
    if (moves && !base) {
      CHECK(once != text_of(stage().picture(view, 1.4)));
    }
  }
}

TEST_CASE("only what is in hand is in full colour") {
  for (std::size_t i = 0; i < stage().step_count(); ++i) {
    ViewState view;
    view.step = i;
    const Picture picture = stage().picture(view, 1.4);
    const StepOutcome& outcome = stage().simulation().outcomes[i];
    INFO("step " << stage().unit().steps[i].id);
    for (const PictureItem& drawn : picture.items) {
      if (drawn.role == Role::in_hand) {
        // What a step looks at before it goes in is in hand, and moves nowhere.
        const Step& step = stage().unit().steps[i];
        const bool looked_at = step.kind == StepKind::measure && drawn.id == step.part;
        CHECK((looked_at || std::ranges::find(outcome.moved, drawn.id) != outcome.moved.end()));
      }
    }
    if (outcome.lowered) {
      CHECK(std::ranges::any_of(
          picture.items, [](const PictureItem& drawn) { return drawn.role == Role::in_hand; }));
    }
  }
}

TEST_CASE("what is still to come is not there") {
  const Picture picture = stage().picture(at("case steel 1", 0), 1.4);
  CHECK(item(picture, "CC-S1") != nullptr);
  CHECK(item(picture, "CC-WAVE") != nullptr);
  CHECK(item(picture, "CC-F1") == nullptr);
  CHECK(item(picture, "MC-DRUM") == nullptr);
}

TEST_CASE("the backing plate hangs above its place, its wide lug and slot lit as a pair") {
  const Picture hanging = stage().picture(at("case backing plate", 0), 1.4);
  const Picture seated = stage().picture(at("case backing plate", 1), 1.4);
  REQUIRE(item(hanging, "CC-BP") != nullptr);
  CHECK(item(hanging, "CC-BP")->role == Role::in_hand);
  CHECK(item(seated, "CC-BP")->pose.height_m == Approx(0.1562));
  CHECK(item(hanging, "CC-BP")->pose.height_m > 0.3183); // above the case's face
  REQUIRE(hanging.keys.size() == 2);
  CHECK(hanging.keys[0].item == "CC-BP");
  CHECK(hanging.keys[1].item == "CASE-01");
  CHECK(hanging.keys[0].pair == hanging.keys[1].pair);
  REQUIRE(hanging.up.has_value());
  CHECK_FALSE(hanging.up->words.empty());
  REQUIRE(hanging.fall.has_value());
  CHECK(hanging.fall->from_m - hanging.fall->to_m ==
        Approx(item(hanging, "CC-BP")->pose.height_m - 0.1562).margin(1e-6));
}

TEST_CASE("the cut opens towards the eye and leaves the key standing") {
  for (const char* step : {"case backing plate", "support in", "middle backing plate"}) {
    const Picture picture = stage().picture(at(step, 0), 1.4);
    INFO(step);
    REQUIRE(picture.cut.on);
    const double turn = 6.283185307179586;
    const auto inside = [&](double angle_rad) {
      const double from = std::fmod(angle_rad - picture.cut.from_rad + 4 * turn, turn);
      return from < picture.cut.to_rad - picture.cut.from_rad;
    };
    CHECK(inside(picture.camera.turn_rad));
    REQUIRE_FALSE(picture.keys.empty());
    CHECK_FALSE(inside(picture.keys.back().angle_rad));
  }
}

TEST_CASE("a measured thickness moves what is drawn, and stretches the plate") {
  Stage measured = [] {
    return Stage(load_unit(std::string(LUGLINE_ROOT) + "/assets-demo/hobspindle-three").unit);
  }();
  measured.set_readings({{"CC-S1", {0.0014, 0}}});
  const Picture picture = measured.picture(at("case backing plate", 1), 1.4);
  CHECK(item(picture, "CC-BP")->pose.height_m == Approx(0.1561));
  REQUIRE(item(picture, "CC-S1")->stretch.has_value());
  CHECK(item(picture, "CC-S1")->stretch->delta_m == Approx(-0.0001));
  const auto column = measured.column(at("case clearance", 1));
  REQUIRE(column.has_value());
  CHECK(column->clearance_m == Approx(0.001));
  CHECK(column->number == "1.00");
}

TEST_CASE("a travel off the axis is told like any other reading, and a typed figure moves it") {
  CHECK(stage().words(at("lower servo travel", 1)).reading ==
        "3.80 mm (0.150 in), limits 3.00 to 4.50 mm");
  CHECK(stage().words(at("output pinions", 1)).reading ==
        "0.40 mm (0.016 in), limits 0.25 to 0.60 mm");
  CHECK(item(stage().picture(at("output pinions", 0), 1.4), "RT-C1")->role == Role::in_hand);
  Stage measured = [] {
    return Stage(load_unit(std::string(LUGLINE_ROOT) + "/assets-demo/hobspindle-three").unit);
  }();
  measured.set_readings({{"LS-PIN", {70.0e-3, 0}}});
  const Words words = measured.words(at("lower servo travel", 1));
  CHECK(words.reading == "4.80 mm (0.189 in), limits 3.00 to 4.50 mm");
  REQUIRE(words.problems.size() == 1);
  CHECK(words.problems.front().find("outside 3.00 mm to 4.50 mm") != std::string::npos);
}

TEST_CASE("the column grows a plate at a time, and its number is the space that is left") {
  double before_m = 1;
  for (const char* step : {"wave plate", "case steel 1", "case friction 1", "case backing plate"}) {
    const auto column = stage().column(at(step, 1));
    INFO(step);
    REQUIRE(column.has_value());
    CHECK(column->id == "CC");
    CHECK(column->clearance_m < before_m);
    before_m = column->clearance_m;
    CHECK(column->plates.back().landing);
  }
  const auto closed = stage().column(at("case clutch ring", 1));
  REQUIRE(closed.has_value());
  CHECK(closed->verdict == PackVerdict::inside);
  CHECK(closed->number == "0.90");
  CHECK(closed->other_unit == "0.035 in");
}

TEST_CASE("words say what to do, what the wrong way would give, and who decides") {
  const Words words = stage().words(at("case backing plate", 0));
  CHECK_FALSE(words.to_do.empty());
  CHECK_FALSE(words.know.empty());
  CHECK(words.wrong_way.find("0.30 mm") != std::string::npos);
  CHECK(words.label.find("invented practice data") != std::string::npos);
  CHECK(words.label.find("service manual") != std::string::npos);
  for (std::size_t i = 0; i < stage().step_count(); ++i) {
    ViewState view;
    view.step = i;
    const Words all = stage().words(view);
    INFO("step " << i);
    CHECK_FALSE(all.to_do.empty());
    CHECK(all.caution.empty() == all.manual.empty());
    CHECK(all.problems.empty());
  }
}

TEST_CASE("let go off its key the plate stands on the case, and the words say by how much") {
  ViewState view = at("case backing plate", 0);
  view.hand.turn_rad = 0.2;
  view.hand.let_go = true;
  const Words words = stage().words(view);
  CHECK(words.stands == "Now standing on case");
  CHECK(words.stands_wrong);
  CHECK(words.stands_more.find("above home") != std::string::npos);
  CHECK(words.stands_more.find("seen from above") != std::string::npos);
  const Picture picture = stage().picture(view, 1.4);
  CHECK(item(picture, "CC-BP")->pose.height_m == Approx(0.300));
  view.hand.turn_rad = 0;
  CHECK_FALSE(stage().words(view).stands_wrong);
}

TEST_CASE("a sub-build that is let go keeps the turns of its pieces to one another") {
  auto unit = std::make_shared<Unit>(stage().unit());
  unit->steps[unit->step_index("middle friction 1")].turn_rad = 0.1;
  const Stage turned(unit);
  ViewState view = at("drum in", 0);
  const auto off_lead = [&](const std::string& id) {
    const Picture picture = turned.picture(view, 1.4);
    const PictureItem* lead = item(picture, "MC-DRUM");
    const PictureItem* piece = item(picture, id);
    REQUIRE(lead != nullptr);
    REQUIRE(piece != nullptr);
    return std::remainder(piece->pose.turn_rad - lead->pose.turn_rad, 6.283185307179586);
  };
  REQUIRE(std::abs(off_lead("MC-F1")) > 1e-3);
  const double held_rad = off_lead("MC-F1");
  view.hand.let_go = true;
  view.hand.turn_rad = 0.3;
  CHECK(off_lead("MC-F1") == Approx(held_rad));
  CHECK(off_lead("MC-AP") == Approx(0).margin(1e-9));
}

TEST_CASE("the eye looks at the key where its mate has been turned to") {
  auto unit = std::make_shared<Unit>(stage().unit());
  for (Step& step : unit->steps) {
    // The whole drum turned on its bench, with all that is keyed to it.
    if (step.place == "drum bench") {
      step.turn_rad = 0.5;
    }
  }
  const Stage turned(unit);
  const ViewState view = at("middle apply plate", 0);
  CHECK(turned.simulation().outcomes[view.step].problems.empty());
  const double straight_rad = stage().picture(view, 1.4).camera.turn_rad;
  CHECK(turned.picture(view, 1.4).camera.turn_rad == Approx(straight_rad + 0.5));
}

TEST_CASE("the other way up is told at the angle at which it would drop") {
  // The backing plate drawn with its lug at 0.3 rad: turned over it is at -0.3, and
  // a hand turns it until it drops.
  auto unit = std::make_shared<Unit>(stage().unit());
  const std::size_t step = unit->step_index("case backing plate");
  unit->steps[step].turn_rad = -0.3;
  for (UnitComponent& component : unit->components) {
    if (component.id != "CC-BP") {
      continue;
    }
    for (SectorRing& ring : component.part.solid.rings) {
      for (Sector& sector : ring.sectors) {
        sector.from.angle_rad += 0.3;
        sector.to.angle_rad += 0.3;
      }
    }
  }
  const Stage turned(unit);
  ViewState view;
  view.step = step;
  REQUIRE(turned.simulation().outcomes[step].problems.empty());
  CHECK(stage().words(view).wrong_way.find("0.30 mm, too tight") != std::string::npos);
  CHECK(turned.words(view).wrong_way == stage().words(view).wrong_way);
}

TEST_CASE("let go the wrong way up at the right height, the words say so") {
  ViewState view = at("case backing plate", 0);
  view.hand.over = true;
  view.hand.let_go = true;
  const Words words = stage().words(view);
  CHECK(words.stands == "Now standing on friction 4");
  CHECK(words.stands_wrong);
  CHECK(words.stands_more.find("wrong way up") != std::string::npos);
  CHECK(words.stands_more.find("0.30 mm") != std::string::npos);
}

TEST_CASE("a check by air tells what the pistons do, in the unit that is chosen") {
  CHECK(stage().words(at("case air", 0)).reading ==
        "At 250 kPa of air: 1.90 mm of travel, clamped with 807 N");
  CHECK(stage().words(at("case air on bench", 0)).reading ==
        "At 250 kPa of air: 4.50 mm to its own stop");
  CHECK(stage().words(at("air on all", 0)).reading ==
        "At 250 kPa of air: 5 of 5 pistons make their stroke");
  ViewState inches = at("case air", 0);
  inches.settings.unit = LengthUnit::inch;
  CHECK(stage().words(inches).reading ==
        "At 36.3 psi of air: 0.075 in of travel, clamped with 181 lbf");
}

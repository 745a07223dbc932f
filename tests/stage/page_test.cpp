// Every step of the demo, at every size and scale, is laid out with nothing cut
// off and nothing overlapping; so are the longest texts.
#include "tests/stage/page_judge.h"

#include "scene/load/load.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace lugline;
using namespace lugline::test;

namespace {

struct Size {
  double width_px;
  double height_px;
};
constexpr Size sizes[] = {{1366, 768}, {1920, 1080}, {1024, 768}};
constexpr double all_scales[] = {1, 1.25, 1.5, 1.75, 2, 2.25, 2.5};

const Stage& demo() {
  static const Stage stage(load_unit(LUGLINE_ROOT "/assets-demo/hobspindle-three").unit);
  return stage;
}

std::string told(const std::vector<std::string>& faults) {
  std::string all;
  for (std::size_t i = 0; i < std::min<std::size_t>(faults.size(), 5); ++i) {
    all += faults[i] + "\n";
  }
  return all;
}

/// Buttons as wide as the window's.
double buttons_px() {
  return 560;
}

PageInput with(PageInput page, const Size& size, double scale) {
  page.width_px = size.width_px;
  page.height_px = size.height_px;
  page.scale = scale;
  return page;
}

PageMarks with_arrow() {
  PageMarks marks;
  PageAnchor up;
  up.sort = AnchorSort::up_arrow;
  up.words = "the side with the step and the wide lug faces up";
  up.at = {600, 200};
  marks.anchors.push_back(up);
  return marks;
}

std::string repeated(const std::string& words, int times) {
  std::string all;
  for (int i = 0; i < times; ++i) {
    all += (i > 0 ? " " : "") + words;
  }
  return all;
}

/// More of everything than any unit should have.
PageInput longest() {
  PageInput page;
  Words& words = page.words;
  words.chapter = "Middle clutch and its one-way clutch, on the drum bench";
  words.count = "step 128 of 256";
  words.to_do = repeated("Turn the wide lug to the wide slot at twelve o'clock and lay it in.", 3);
  words.know = repeated("It lies flat on the last friction and turns without rising.", 3);
  words.caution = repeated("Springs under load fly out: wear eye protection and stand aside.", 3);
  words.manual = "The unit's service manual, local rules and a qualified person decide.";
  words.stands = "Now standing on backing plate of the intermediate overrun clutch 2";
  words.stands_more =
      "12.70 mm above home, 12.5 deg counter-clockwise from its key, seen from above, cocked";
  words.stands_wrong = true;
  words.wrong_way = repeated("The other way up the clearance is 0.30 mm, too tight.", 2);
  words.reading = "104.30 mm (4.106 in), limits 104.10 to 104.50 mm";
  words.problems = {"it comes to rest 1.70 mm too high on friction 1",
                    "the reading 104.90 mm is outside its limits"};
  words.label = "invented practice data: for a real unit its service manual decides";
  page.hint = "picked up: the wheel turns it, U turns it over, Space lets it go";
  page.notes = {
      {"The log cannot be written: the disk is full. What you do now is not kept.", true}};
  for (std::size_t i = 0; i < 256; ++i) {
    page.rule.push_back(
        {i, i % 32 == 0, i % 32 == 0 ? "Intermediate overrun clutch" : "", i % 50 == 7});
  }
  page.step = 127;
  Column column;
  column.name = "Intermediate overrun clutch, rear of centre support";
  column.ring_low_m = 0.040;
  column.ring_high_m = 0.042;
  column.low_m = 0.00075;
  column.high_m = 0.00125;
  double at_m = 0;
  for (int i = 0; i < 14; ++i) {
    ColumnPlate plate;
    plate.label = i % 2 == 0 ? "intermediate steel 1" : "intermediate friction 1";
    plate.low_m = at_m;
    plate.thick_m = i == 0 ? 0.0004 : 0.0018;
    plate.high_m = at_m += plate.thick_m;
    plate.material = i % 2 == 0 ? "steel" : "friction lining";
    plate.measured = i % 3 == 0;
    plate.landing = i == 13;
    column.plates.push_back(plate);
  }
  column.has_wave = true;
  column.clearance_m = column.ring_low_m - at_m;
  column.flat_m = column.clearance_m + 0.001;
  column.number = "16.20";
  column.number_unit = "mm";
  column.other_unit = "0.638 in";
  column.verdict_words = "space that is left";
  column.limits_words = "limits 0.75 to 1.25 mm";
  page.column = column;
  for (int i = 0; i < 14; ++i) {
    page.tray.push_back({"intermediate friction, twelve", 0.02 + 0.008 * i, 0.015,
                         i == 5 ? 0.3 : 0.002, i % 2 == 0 ? "steel" : "friction lining", i == 0});
  }
  return page;
}

} // namespace

TEST_CASE("every step of the demo is laid out with nothing cut off and nothing overlapping") {
  const Stage& stage = demo();
  const WideRuler ruler;
  const PageMarks marks = with_arrow();
  for (std::size_t step = 0; step < stage.step_count(); ++step) {
    for (const double moment : {0.0, 1.0}) {
      ViewState view;
      view.step = step;
      view.moment = moment;
      view.hand.let_go = moment == 0;
      view.settings.unit = step % 2 == 0 ? LengthUnit::millimetre : LengthUnit::inch;
      PageInput page = page_of(stage, view, 1366, 768, 1);
      page.foot_buttons_px = buttons_px();
      for (const Size& size : sizes) {
        for (const double scale : all_scales) {
          const auto faults = faults_of(with(page, size, scale), marks, ruler);
          INFO(stage.unit().steps[step].id << ", moment " << moment << ", " << size.width_px << "x"
                                           << size.height_px << " at " << scale);
          INFO(told(faults));
          REQUIRE(faults.empty());
        }
      }
    }
  }
}

TEST_CASE("the longest texts are laid out with nothing cut off and nothing overlapping") {
  const WideRuler ruler;
  const PageMarks marks = with_arrow();
  for (const bool with_column : {true, false}) {
    PageInput page = longest();
    page.foot_buttons_px = buttons_px();
    if (!with_column) {
      page.column.reset();
    }
    for (const Size& size : sizes) {
      for (const double scale : all_scales) {
        const auto faults = faults_of(with(page, size, scale), marks, ruler);
        INFO(size.width_px << "x" << size.height_px << " at " << scale);
        INFO(told(faults));
        CHECK(faults.empty());
      }
    }
  }
}

TEST_CASE("the judge sees words that run into one another and words that are cut off") {
  const WideRuler ruler;
  PageInput page = longest();
  page.width_px = 420; // no page can be laid out in that
  page.height_px = 160;
  CHECK_FALSE(faults_of(page, {}, ruler).empty());
}

TEST_CASE("the caution and who decides stand on the page at every size") {
  const WideRuler ruler;
  for (const Size& size : sizes) {
    for (const double scale : all_scales) {
      const PageInput page = with(longest(), size, scale);
      const Drawing2d drawing = draw_page(page, lay_out(page), {}, ruler);
      std::vector<std::string> words;
      for (const FlatShape& shape : drawing.shapes) {
        if (const auto* text = std::get_if<TextShape>(&shape)) {
          words.push_back(text->words);
        }
      }
      for (const std::string& wanted : {page.words.to_do, page.words.know, page.words.caution,
                                        page.words.manual, page.words.label}) {
        CHECK(std::ranges::find(words, kept_together(wanted)) != words.end());
      }
    }
  }
}

TEST_CASE("type grows with the scale as far as the page lets it") {
  const WideRuler ruler;
  PageInput page = longest();
  page.words = {};
  page.words.to_do = "Lay the friction in.";
  double last_px = 0;
  for (const double scale : all_scales) {
    const PageInput at = with(page, {1920, 1080}, scale);
    const Drawing2d drawing = draw_page(at, lay_out(at), {}, ruler);
    for (const FlatShape& shape : drawing.shapes) {
      if (const auto* text = std::get_if<TextShape>(&shape);
          text && text->words == page.words.to_do) {
        CHECK(text->size_px * scale > last_px - 0.5);
        last_px = text->size_px * scale;
      }
    }
  }
  CHECK(last_px > 50);
}

TEST_CASE("labels keep off the part in hand and off each other, and leaders never cross") {
  const WideRuler ruler;
  PageInput page = longest();
  PageMarks marks;
  const PageLayout layout = lay_out(page);
  const Box& picture = layout.picture;
  marks.hand = Box{picture.x_px + 0.3 * picture.width_px, picture.y_px + 0.1 * picture.height_px,
                   0.4 * picture.width_px, 0.35 * picture.height_px};
  unsigned seed = 7;
  const auto next = [&seed] {
    seed = seed * 1664525u + 1013904223u;
    return static_cast<double>(seed >> 8) / static_cast<double>(1u << 24);
  };
  std::size_t placed = 0;
  for (int round = 0; round < 60; ++round) {
    marks.anchors.clear();
    for (int i = 0; i < 6; ++i) {
      PageAnchor anchor;
      anchor.sort = i < 2 ? AnchorSort::key : AnchorSort::label;
      anchor.number = i + 1;
      anchor.words = i < 2 ? "" : "label number " + std::to_string(i);
      anchor.at = {picture.x_px + next() * picture.width_px,
                   picture.y_px + next() * picture.height_px};
      marks.anchors.push_back(anchor);
    }
    const auto faults = faults_of(page, marks, ruler);
    INFO(told(faults));
    REQUIRE(faults.empty());

    // Leaders end in a dot on what they name: find them by it.
    const Drawing2d drawing = draw_page(page, layout, marks, ruler);
    std::vector<LineShape> leaders;
    for (std::size_t i = 1; i < drawing.shapes.size(); ++i) {
      const auto* dot = std::get_if<CircleShape>(&drawing.shapes[i]);
      const auto* leader = std::get_if<LineShape>(&drawing.shapes[i - 1]);
      if (dot != nullptr && leader != nullptr && dot->radius_px < 3 && dot->centre == leader->to) {
        leaders.push_back(*leader);
      }
    }
    placed += leaders.size();
    const auto side = [](PointPx a, PointPx b, PointPx c) {
      return (b.x_px - a.x_px) * (c.y_px - a.y_px) - (b.y_px - a.y_px) * (c.x_px - a.x_px);
    };
    for (const LineShape& one : leaders) {
      for (const LineShape& other : leaders) {
        const bool cross =
            side(one.from, one.to, other.from) * side(one.from, one.to, other.to) < 0 &&
            side(other.from, other.to, one.from) * side(other.from, other.to, one.to) < 0;
        CHECK_FALSE(cross);
      }
    }
  }
  CHECK(placed > 120); // most of 240 find a place
}

TEST_CASE("a place on the rule is the step of the nearest tick") {
  PageInput page = longest();
  const PageLayout layout = lay_out(page);
  const std::size_t steps = page.rule.size();
  const double y = layout.rule.y_px + 10;
  CHECK(layout.step_at({layout.rule.x_px + 12, y}, steps) == 0);
  CHECK(layout.step_at({layout.rule.right_px() - 12, y}, steps) == steps - 1);
  const double middle = layout.rule.x_px + layout.rule.width_px / 2;
  const auto step = layout.step_at({middle, y}, steps);
  REQUIRE(step);
  CHECK(*step >= steps / 2 - 1);
  CHECK(*step <= steps / 2 + 1);
  CHECK_FALSE(layout.step_at({middle, layout.rule.bottom_px() + 20}, steps));
  CHECK_FALSE(layout.step_at({middle, y}, 0));
}

TEST_CASE("the column grows as plates land, and shows the space that is left") {
  const WideRuler ruler;
  PageInput page = longest();
  const auto hatched = [&](const PageInput& input) {
    const Drawing2d drawing = draw_page(input, lay_out(input), {}, ruler);
    return std::ranges::count_if(drawing.shapes, [](const FlatShape& shape) {
      return std::holds_alternative<HatchShape>(shape);
    });
  };
  const auto all = hatched(page);
  page.column->plates.pop_back();
  CHECK(hatched(page) == all - 1);
}

TEST_CASE("the same page gives the same drawing") {
  const WideRuler ruler;
  const PageInput page = longest();
  CHECK(draw_page(page, lay_out(page), {}, ruler) == draw_page(page, lay_out(page), {}, ruler));
}

TEST_CASE("a figure keeps its unit and a name its number") {
  CHECK(kept_together("0.30 mm, too tight") == "0.30\u00a0mm, too tight");
  CHECK(kept_together("friction 2") == "friction\u00a02");
  CHECK(kept_together("step 12 of 58") == "step\u00a012 of\u00a058");
  CHECK(kept_together("12 o'clock") == "12 o'clock");
  CHECK(kept_together("") == "");
}

// The page in the font that it is really set in: every step of the demo at
// every size and scale, nothing cut off and nothing overlapping.
#include "tests/stage/page_judge.h"

#include "scene/load/load.h"
#include "viewer/draw/text.h"

#include <catch2/catch.hpp>

using namespace lugline;
using namespace lugline::test;

TEST_CASE("every step of the demo, set in Inter, is cut off nowhere and overlaps nowhere") {
  const auto fonts = Fonts::load();
  REQUIRE(fonts.ok());
  const Stage stage(load_unit(LUGLINE_ROOT "/assets-demo/hobspindle-three").unit);
  const double sizes[][2] = {{1366, 768}, {1920, 1080}, {1024, 768}};
  for (std::size_t step = 0; step < stage.step_count(); ++step) {
    ViewState view;
    view.step = step;
    view.moment = step % 2 == 0 ? 0 : 1;
    view.hand.let_go = true;
    view.settings.unit = step % 3 == 0 ? LengthUnit::inch : LengthUnit::millimetre;
    PageInput page = page_of(stage, view, 1366, 768, 1);
    page.foot_buttons_px = 430;
    page.hint = "Page Down: it goes in. Space: it falls as it is held.";
    for (const auto& size : sizes) {
      for (const double scale : {1.0, 1.5, 2.0, 2.5}) {
        page.width_px = size[0];
        page.height_px = size[1];
        page.scale = scale;
        const auto faults = faults_of(page, {}, *fonts.value());
        INFO(stage.unit().steps[step].id << ", " << size[0] << "x" << size[1] << " at " << scale);
        INFO((faults.empty() ? std::string() : faults[0]));
        REQUIRE(faults.empty());
      }
    }
  }
}

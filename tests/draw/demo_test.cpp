// The demo's own pictures, through the renderer.
#include "tests/draw/drawing_board.h"

#include "scene/load/load.h"
#include "viewer/stage/stage.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace lugline;
using namespace lugline::shapes;

TEST_CASE("no step cuts off the arrow that tells which face goes up", "[draw][arrow]") {
  const LoadReport report = load_unit(std::string(LUGLINE_ROOT) + "/assets-demo/hobspindle-three");
  REQUIRE(report.unit != nullptr);
  const Stage stage(report.unit);
  Renderer& renderer = DrawingBoard::get().renderer();
  constexpr int width_px = 384;
  constexpr int height_px = 216;
  DrawOptions small;
  small.scale = height_px / 768.0F;
  small.quality = motion_quality;
  int arrows = 0;
  for (std::size_t i = 0; i < stage.step_count(); ++i) {
    ViewState view;
    view.step = i;
    const Picture picture = stage.picture(view, double{width_px} / height_px);
    if (!picture.up) {
      continue;
    }
    (void)renderer.draw(picture, width_px, height_px, small);
    const auto& anchors = renderer.anchors();
    const auto tip = std::ranges::find(anchors, AnchorKind::up_arrow, &ScreenAnchor::kind);
    REQUIRE(tip != anchors.end());
    INFO("step " << stage.unit().steps[i].id);
    CHECK(tip->y_px >= 0);
    CHECK(tip->y_px <= height_px);
    CHECK(tip->x_px >= 0);
    CHECK(tip->x_px <= width_px);
    ++arrows;
  }
  CHECK(arrows > 10);
}

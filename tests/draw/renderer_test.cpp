// Pictures, off screen: what is where, what colour it has, and that it is the
// same each time.
#include "tests/draw/drawing_board.h"
#include "tests/draw/mock_unit.h"
#include "tests/draw/shapes.h"
#include "viewer/draw/gl.h"
#include "viewer/draw/mesh_store.h"
#include "viewer/draw/view.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace lugline;
using namespace lugline::shapes;

namespace {

constexpr double pi = std::numbers::pi;

Renderer& renderer() {
  return DrawingBoard::get().renderer();
}

Picture ring_picture() {
  Picture picture;
  picture.items.push_back(item_of("ring", mesh_of_blocks({ring(0.030, 0.060, 0, 0.020)})));
  return picture;
}

/// How many pixels pick the number.
int picked(int width, int height, std::uint32_t number) {
  int count = 0;
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x)
      count += renderer().pick(x, y) == number ? 1 : 0;
  return count;
}

} // namespace

TEST_CASE("what drew the pictures can be told", "[draw]") {
  CHECK_FALSE(DrawingBoard::get().context().description().empty());
  CHECK(judge_current_context().ok());
}

TEST_CASE("a shaft cut in half shows a face of the right area", "[draw][cut]") {
  Picture picture;
  picture.items.push_back(item_of("shaft", mesh_of_blocks({ring(0, 0.030, 0, 0.080)}, 120)));
  picture.cut = {true, -pi / 2, pi / 2}; // the half at 12 o'clock is taken out
  picture.camera = side_view(0, 0.040, 0.100);
  (void)renderer().draw(picture, 160, 120);
  const double px_per_m = 120 / 0.100;
  const double expected = 0.060 * 0.080 * px_per_m * px_per_m;
  // The face's border may take or leave half a pixel all round.
  CHECK(picked(160, 120, 1) == Approx(expected).margin(0.5 * (60 + 80) * 2 * px_per_m * 1e-3));
  CHECK(renderer().unclosed().empty());
}

TEST_CASE("the wedge is empty and the rest is not", "[draw][cut]") {
  Picture picture = ring_picture();
  picture.camera = plan_view(0.140);
  const auto pick_at = [&](double angle) {
    const View view = view_of(picture.camera, 200, 200, {});
    const auto px = view.on_screen(polar(0.045, angle, 0.020));
    REQUIRE(px);
    return renderer().pick(static_cast<int>(px->x), static_cast<int>(px->y));
  };
  SECTION("a narrow one") {
    picture.cut = {true, 0.3, 1.5};
    (void)renderer().draw(picture, 200, 200);
    CHECK(pick_at(0.9) == 0);
    CHECK(pick_at(0.4) == 0);
    CHECK(pick_at(1.4) == 0);
    for (const double angle : {0.2, 1.6, 3.0, -0.9})
      CHECK(pick_at(angle) == 1);
  }
  SECTION("one wider than half a turn") {
    picture.cut = {true, 1.0, 5.5};
    (void)renderer().draw(picture, 200, 200);
    for (const double angle : {1.1, 3.0, 5.4})
      CHECK(pick_at(angle) == 0);
    for (const double angle : {0.9, 0.0, -0.7})
      CHECK(pick_at(angle) == 1);
  }
  SECTION("a part that stays whole") {
    picture.cut = {true, 0.3, 1.5};
    picture.items[0].cut = false;
    (void)renderer().draw(picture, 200, 200);
    CHECK(pick_at(0.9) == 1);
  }
  SECTION("no cut") {
    picture.cut = {false, 0.3, 1.5};
    (void)renderer().draw(picture, 200, 200);
    CHECK(pick_at(0.9) == 1);
  }
}

TEST_CASE("seen from above the eye's side is at the foot and +x at the left", "[draw][camera]") {
  Picture picture;
  Block lug = ring(0.030, 0.050, 0, 0.010);
  lug.from_rad = -pi / 2 - 0.2; // about +x
  lug.to_rad = -pi / 2 + 0.2;
  picture.items.push_back(item_of("lug", mesh_of_blocks({lug})));
  picture.camera = plan_view(0.140);
  (void)renderer().draw(picture, 200, 200);
  CHECK(renderer().pick(100 - 57, 100) == 1);
  CHECK(renderer().pick(100 + 57, 100) == 0);
  picture.items[0].pose.turn_rad = pi / 2; // counter-clockwise from the +z end: +x to 12 o'clock
  (void)renderer().draw(picture, 200, 200);
  CHECK(renderer().pick(100, 100 + 57) == 1);
  CHECK(renderer().pick(100 - 57, 100) == 0);
}

TEST_CASE("silhouettes are inked and paper is not", "[draw][ink]") {
  Picture picture = ring_picture();
  picture.camera = plan_view(0.140);
  const Image image = renderer().draw(picture, 280, 280);
  const double px_per_m = 280 / 0.140;
  for (int i = 0; i < 24; ++i) {
    const double a = 2 * pi * i / 24 + 0.05;
    for (const double r : {0.030, 0.060}) {
      const int x = static_cast<int>(140 + r * px_per_m * std::cos(a));
      const int y = static_cast<int>(140 + r * px_per_m * std::sin(a));
      CHECK(darkest_near(image, x, y, 2) < 90);
    }
    const int x = static_cast<int>(140 + 0.045 * px_per_m * std::cos(a));
    const int y = static_cast<int>(140 + 0.045 * px_per_m * std::sin(a));
    CHECK(darkest_near(image, x, y, 2) > 120);
  }
  CHECK(darkest_near(image, 8, 8, 6) > 225);
}

TEST_CASE("ink is as wide one way as the other", "[draw][ink]") {
  // The same edge seen level, upright and aslant: the ink across it, summed, is even.
  Picture picture;
  Block wedge = ring(0.010, 0.060, 0, 0.010);
  wedge.from_rad = 0;
  wedge.to_rad = 2.6;
  picture.items.push_back(item_of("wedge", mesh_of_blocks({wedge}, 360)));
  picture.camera = plan_view(0.160);
  std::vector<double> widths;
  for (const double turn : {0.0, 0.26, 0.52, pi / 4, 1.2, pi / 2}) {
    picture.items[0].pose.turn_rad = turn;
    const Image image = renderer().draw(picture, 320, 320);
    const double px_per_m = 320 / 0.160;
    // From the middle of the flank outward over the paper, where all that is dark is ink.
    const View view = view_of(picture.camera, 320, 320, {});
    const glm::dvec3 aside = outward(turn - pi / 2);
    double ink = 0;
    for (int k = 0; k < 60; ++k) {
      const glm::dvec3 on_flank = polar(0.022 + 0.0004 * k, turn, 0.010);
      for (int s = 0; s < 24; ++s) {
        const auto px = view.on_screen(on_flank + aside * ((s + 0.5) * 0.125 / px_per_m));
        REQUIRE(px);
        const double b = brightness(image, static_cast<int>(px->x), static_cast<int>(px->y));
        ink += std::max(0.0, 244 - b) / 220 * 0.125;
      }
    }
    widths.push_back(ink / 60);
  }
  const auto [least, most] = std::minmax_element(widths.begin(), widths.end());
  CHECK(*least > 0.5);
  for (const double w : widths)
    UNSCOPED_INFO(w);
  CHECK(*most / *least < 1.2);
}

TEST_CASE("the part in hand alone is in full colour", "[draw][role]") {
  Picture picture = ring_picture();
  picture.camera = plan_view(0.140);
  const auto look = [&](Role role) {
    picture.items[0].role = role;
    return renderer().draw(picture, 200, 200);
  };
  const int x = 100 + 64;
  const int y = 100;
  const Image in_hand = look(Role::in_hand);
  const Image placed = look(Role::placed);
  const Image mate = look(Role::mate);
  CHECK(colourfulness(in_hand, x, y) > 35);
  CHECK(colourfulness(placed, x, y) < 20);
  CHECK(colourfulness(mate, x, y) < colourfulness(in_hand, x, y));
  CHECK(brightness(placed, x, y) > brightness(in_hand, x, y));
  // A ghost has no fill at all: paper shows through it, and its outline is there.
  const Image ghost = look(Role::ghost);
  const Image nothing = renderer().draw({}, 200, 200);
  CHECK(ghost.at(x, y) == nothing.at(x, y));
  CHECK(renderer().pick(x, y) == 0);
  int inked = 0;
  for (int i = 0; i < 200; ++i)
    inked += brightness(ghost, i, 100) < 170 ? 1 : 0;
  CHECK(inked >= 2);
}

TEST_CASE("materials stay apart in grey", "[draw][material]") {
  Picture picture = ring_picture();
  picture.camera = plan_view(0.140);
  picture.items[0].mesh =
      std::make_shared<const Mesh>(mesh_of_blocks({ring(0.030, 0.060, 0, 0.020, "")}));
  std::vector<double> tones;
  for (const char* material : {"aluminium", "steel", "bronze", "iron", "rubber"}) {
    picture.items[0].role = Role::in_hand;
    picture.items[0].material = material;
    const Image image = renderer().draw(picture, 200, 200);
    double sum = 0;
    for (int i = 0; i < 36; ++i)
      sum += brightness(image, static_cast<int>(100 + 64 * std::cos(i * pi / 18)),
                        static_cast<int>(100 + 64 * std::sin(i * pi / 18)));
    tones.push_back(sum / 36);
  }
  for (std::size_t a = 0; a < tones.size(); ++a)
    for (std::size_t b = a + 1; b < tones.size(); ++b) {
      INFO(a << " " << tones[a] << ", " << b << " " << tones[b]);
      CHECK(std::abs(tones[a] - tones[b]) > 6);
    }
}

TEST_CASE("picking names the nearest part", "[draw][pick]") {
  Picture picture = ring_picture();
  picture.items[0].pick = 7;
  picture.items.push_back(item_of("disc", mesh_of_blocks({ring(0, 0.040, 0, 0.005)})));
  picture.items[1].pick = 300;
  picture.items[1].pose.height_m = 0.020;
  picture.items.push_back(item_of("aside", mesh_of_blocks({ring(0, 0.004, 0, 0.005)})));
  picture.items[2].pick = 0;
  picture.items[2].pose.aside_m = -0.062; // at the right, since +x is at the left
  picture.camera = plan_view(0.140);
  (void)renderer().draw(picture, 140, 140);
  CHECK(renderer().pick(70, 70) == 300);
  CHECK(renderer().pick(70 + 35, 70) == 300);
  CHECK(renderer().pick(70 + 50, 70) == 7);
  CHECK(renderer().pick(70 + 64, 70) == 0);
  CHECK(renderer().pick(2, 2) == 0);
  CHECK(renderer().pick(-1, 500) == 0);
}

TEST_CASE("what the mouse is over gains weight of line", "[draw][pick]") {
  Picture picture = ring_picture();
  picture.camera = plan_view(0.140);
  const auto dark = [&](std::uint32_t over) {
    DrawOptions options;
    options.emphasised_pick = over;
    const Image image = renderer().draw(picture, 200, 200, options);
    int count = 0;
    for (int y = 0; y < 200; ++y)
      for (int x = 0; x < 200; ++x)
        count += brightness(image, x, y) < 100 ? 1 : 0;
    return count;
  };
  CHECK(dark(1) > 1.25 * dark(0));
}

TEST_CASE("the same picture is the same bytes", "[draw][same]") {
  const Picture picture = mock_picture();
  const Image first = renderer().draw(picture, 320, 240);
  (void)renderer().draw(ring_picture(), 100, 80);
  const Image again = renderer().draw(picture, 320, 240);
  CHECK(first == again);
  auto other = Renderer::create();
  REQUIRE(other.ok());
  Renderer fresh = std::move(other).value();
  CHECK(fresh.draw(picture, 320, 240) == first);
  CHECK(gl_is_well());
}

TEST_CASE("into a part of a framebuffer it is the same picture, and nothing else changes",
          "[draw][same]") {
  const Picture picture = mock_picture();
  const Image alone = renderer().draw(picture, 200, 150);
  const OffscreenTarget target(320, 240);
  glBindFramebuffer(GL_FRAMEBUFFER, target.framebuffer());
  glClearColor(1, 0, 1, 1);
  glClear(GL_COLOR_BUFFER_BIT);
  renderer().draw_into(target.framebuffer(), {40, 30, 200, 150}, picture);
  const Image whole = target.read();
  int wrong = 0;
  for (int y = 0; y < 240; ++y)
    for (int x = 0; x < 320; ++x) {
      const int px = x - 40;
      const int py = y - (240 - 30 - 150);
      const bool in = px >= 0 && py >= 0 && px < 200 && py < 150;
      const std::array<std::uint8_t, 4> bare = {255, 0, 255, 255};
      const auto there = whole.at(x, y);
      const auto expected = in ? alone.at(px, py) : bare;
      // A thin line's corner may round otherwise at another place in the window.
      int apart = 0;
      for (std::size_t c = 0; c < 4; ++c)
        apart = std::max(apart, std::abs(int{there[c]} - int{expected[c]}));
      wrong += apart > (in ? 2 : 0) ? 1 : 0;
    }
  CHECK(wrong == 0);
}

TEST_CASE("print is plain lines on white", "[draw][print]") {
  Picture picture = mock_picture();
  picture.print_look = true;
  picture.keys.clear();
  picture.fall.reset();
  picture.turn.reset();
  const Image image = renderer().draw(picture, 320, 240);
  int coloured = 0;
  int white = 0;
  int dark = 0;
  for (int y = 0; y < 240; ++y)
    for (int x = 0; x < 320; ++x) {
      coloured += colourfulness(image, x, y) > 12 ? 1 : 0;
      white += brightness(image, x, y) > 254 ? 1 : 0;
      dark += brightness(image, x, y) < 110 ? 1 : 0;
    }
  CHECK(coloured == 0);
  CHECK(white > 320 * 240 / 2);
  CHECK(dark > 500);
}

TEST_CASE("a part far from its origin looks the same", "[draw][far]") {
  Picture near = ring_picture();
  near.camera = side_view(0.4, 0.01, 0.16);
  near.camera.rise_rad = 0.6;
  Picture far = near;
  far.items[0].mesh = std::make_shared<const Mesh>(moved(*near.items[0].mesh, 0, 0, 4096.0));
  far.items[0].pose.height_m = -4096.0;
  const ImageDifference difference =
      compare(renderer().draw(near, 240, 180), renderer().draw(far, 240, 180));
  INFO(text_of(difference));
  CHECK(difference.mean < 0.05);
}

TEST_CASE("a measured thickness shows", "[draw][stretch]") {
  Picture picture = ring_picture();
  picture.camera = side_view(0, 0.015, 0.100);
  (void)renderer().draw(picture, 150, 100);
  const int before = picked(150, 100, 1);
  picture.items[0].stretch = Stretch{0.002, 0.018, 0.010};
  (void)renderer().draw(picture, 150, 100);
  CHECK(picked(150, 100, 1) == Approx(1.5 * before).epsilon(0.03));
}

TEST_CASE("open meshes are named where the cut passes", "[draw][cut]") {
  Picture picture;
  const Mesh whole = mesh_of_blocks({ring(0.030, 0.060, 0, 0.020)}, 24);
  picture.items.push_back(item_of("whole", whole));
  picture.items.push_back(
      item_of("open", without_triangles(whole, [](const Vec3& corner, const Vec3& normal) {
                return std::abs(normal.z) < 0.1 && std::hypot(corner.x, corner.y) > 0.059;
              })));
  picture.cut = {true, 0.1, 1.2};
  picture.camera = side_view(0.6, 0.01, 0.2);
  (void)renderer().draw(picture, 100, 80);
  REQUIRE(renderer().unclosed().size() == 1);
  CHECK(renderer().unclosed()[0] == "open");
}

TEST_CASE("keys are lit and anchored", "[draw][key]") {
  Picture picture;
  std::vector<Block> blocks = {ring(0.030, 0.060, 0, 0.020)};
  Block lug = ring(0.060, 0.070, 0, 0.020);
  lug.from_rad = -0.15;
  lug.to_rad = 0.15;
  blocks.push_back(lug);
  picture.items.push_back(item_of("plate", mesh_of_blocks(blocks)));
  KeyLight key;
  key.item = "plate";
  key.inner_m = 0.060;
  key.outer_m = 0.070;
  key.high_m = 0.020;
  key.width_m = 2 * 0.065 * std::sin(0.15);
  picture.keys.push_back(key);
  picture.camera = side_view(0, 0.010, 0.2);
  picture.camera.rise_rad = 0.5;
  const auto blue_pixels = [&](const Image& image) {
    int count = 0;
    for (int y = 0; y < image.height_px; ++y)
      for (int x = 0; x < image.width_px; ++x) {
        const auto c = image.at(x, y);
        count += c[2] > c[0] + 60 ? 1 : 0;
      }
    return count;
  };
  const Image lit = renderer().draw(picture, 240, 180);
  REQUIRE(renderer().anchors().size() == 1);
  const ScreenAnchor front = renderer().anchors()[0];
  CHECK(front.kind == AnchorKind::key);
  CHECK(front.number == 1);
  CHECK(front.on_screen);
  CHECK(front.x_px == Approx(120).margin(1));
  const int seen = blue_pixels(lit);
  CHECK(seen > 150);
  // From behind the plate hides its lug: the outline alone shows, thinly.
  picture.camera.turn_rad = pi;
  picture.camera.rise_rad = 0.02;
  const Image hidden = renderer().draw(picture, 240, 180);
  CHECK_FALSE(renderer().anchors()[0].visible);
  CHECK(blue_pixels(hidden) < seen / 2);
  // Where the cut takes the lug away nothing of it is left, outline or anchor.
  picture.camera.turn_rad = 0;
  picture.cut = {true, -0.5, 0.5};
  const Image gone = renderer().draw(picture, 240, 180);
  CHECK(blue_pixels(gone) == 0);
  CHECK_FALSE(renderer().anchors()[0].visible);
}

TEST_CASE("marks have their anchors, in order", "[draw][anchor]") {
  Picture picture = mock_picture();
  picture.labels.push_back({"rim", "MD", 0.079, 3.6 + pi / 4, 0.262});
  picture.labels.push_back({"behind the eye", "", 0.0, 0.0, 50.0});
  (void)renderer().draw(picture, 400, 300);
  const auto& anchors = renderer().anchors();
  REQUIRE(anchors.size() == 8);
  const std::vector<AnchorKind> kinds = {
      AnchorKind::key,   AnchorKind::key,       AnchorKind::up_arrow, AnchorKind::label,
      AnchorKind::label, AnchorKind::fall_from, AnchorKind::fall_to,  AnchorKind::turn_arc};
  for (std::size_t i = 0; i < kinds.size(); ++i)
    CHECK(anchors[i].kind == kinds[i]);
  CHECK(anchors[2].words == "open end up");
  CHECK_FALSE(anchors[4].on_screen);
  CHECK(anchors[5].y_px < anchors[6].y_px);
}

TEST_CASE("the up arrow leaves the face that it marks", "[draw][arrow]") {
  Picture picture = ring_picture();
  picture.camera = side_view(0, 0.010, 0.3);
  picture.up = UpArrow{"ring", 0.045, 0, 0.020, "step up"};
  (void)renderer().draw(picture, 300, 300);
  const double above = renderer().anchors()[0].y_px;
  picture.items[0].pose.over_rad = pi;
  picture.items[0].pose.over_about_m = 0.010;
  (void)renderer().draw(picture, 300, 300);
  const double below = renderer().anchors()[0].y_px;
  CHECK(above < 150 - 60);
  CHECK(below > 150 + 60);
}

TEST_CASE("less care draws the same scene", "[draw][quality]") {
  const Picture picture = mock_picture();
  DrawOptions motion;
  motion.quality = motion_quality;
  const Image quick = renderer().draw(picture, 320, 240, motion);
  const std::uint32_t quick_pick = renderer().pick(160, 150);
  const Image still = renderer().draw(picture, 320, 240);
  CHECK(renderer().pick(160, 150) == quick_pick);
  const ImageDifference difference = compare(quick, still);
  INFO(text_of(difference));
  CHECK(difference.mean < 4.0);
}

TEST_CASE("half the pixels draw the same scene, its anchors and its parts where they were",
          "[draw][quality]") {
  const Picture picture = mock_picture();
  const Image still = renderer().draw(picture, 321, 241);
  const std::vector<ScreenAnchor> anchors = renderer().anchors();
  const std::uint32_t still_pick = renderer().pick(160, 150);
  REQUIRE(still_pick != 0);
  DrawOptions motion;
  motion.quality = motion_quality;
  motion.quality.half_pixels = true;
  const Image quick = renderer().draw(picture, 321, 241, motion);
  CHECK(renderer().pick(160, 150) == still_pick);
  CHECK(renderer().pick(320, 240) == 0);
  REQUIRE(renderer().anchors().size() == anchors.size());
  for (std::size_t i = 0; i < anchors.size(); ++i) {
    CHECK(renderer().anchors()[i].x_px == Approx(anchors[i].x_px).margin(2));
    CHECK(renderer().anchors()[i].y_px == Approx(anchors[i].y_px).margin(2));
  }
  // Its lines are finer and softer; where there is anything at all must agree.
  const Image bare = renderer().draw(Picture{}, 321, 241);
  const auto drawn = [&](const Image& image, std::size_t at) {
    int apart = 0;
    for (std::size_t c = 0; c < 3; ++c)
      apart += std::abs(int{image.rgba[at + c]} - int{bare.rgba[at + c]});
    return apart > 40;
  };
  int differ = 0;
  int any = 0;
  for (std::size_t at = 0; at < still.rgba.size(); at += 4) {
    any += drawn(still, at) ? 1 : 0;
    differ += drawn(still, at) != drawn(quick, at) ? 1 : 0;
  }
  REQUIRE(any > 5000);
  CHECK(differ < any / 20);
}

TEST_CASE("a mesh that nobody keeps leaves the GPU", "[draw][store]") {
  (void)DrawingBoard::get();
  MeshStore store;
  auto mesh = std::make_shared<const Mesh>(mesh_of_blocks({ring(0.01, 0.02, 0, 0.01)}, 12));
  CHECK(store.at(mesh).topology.closed);
  (void)store.at(mesh);
  CHECK(store.size() == 1);
  store.sweep();
  CHECK(store.size() == 1);
  mesh.reset();
  store.sweep();
  CHECK(store.size() == 0);
}

TEST_CASE("OpenGL ES 3.0 draws the same picture", "[draw][embedded]") {
  const Picture picture = mock_picture();
  const Image desktop = renderer().draw(picture, 320, 240);
  auto made = GlContext::make(GlKind::embedded);
  if (!made)
    FAIL(made.problem());
  {
    const GlContext embedded = std::move(made).value();
    auto created = Renderer::create();
    if (!created)
      FAIL(created.problem());
    Renderer other = std::move(created).value();
    const Image image = other.draw(picture, 320, 240);
    CHECK(gl_is_well());
    const ImageDifference difference = compare(desktop, image);
    INFO(text_of(difference));
    CHECK(difference.mean < 0.1);
    const auto fonts = Fonts::load();
    REQUIRE(fonts.ok());
    CHECK(Painter::create(fonts.value()).ok());
  }
  (void)DrawingBoard::get();
}

TEST_CASE("an empty picture is paper", "[draw]") {
  const Image image = renderer().draw({}, 64, 48);
  CHECK(darkest_near(image, 32, 24, 60) > 225);
  CHECK(renderer().anchors().empty());
  CHECK(gl_is_well());
}

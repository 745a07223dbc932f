#include "tests/draw/mock_unit.h"

#include "tests/draw/shapes.h"

#include <cmath>
#include <numbers>

namespace lugline::shapes {
namespace {

constexpr double mm = 1e-3;
constexpr double pi = std::numbers::pi;

/// Polar blocks in millimetres, gathered into one mesh.
class Part {
public:
  Part& ring(double r0, double r1, double z0, double z1, const std::string& material) {
    blocks_.push_back(shapes::ring(r0 * mm, r1 * mm, z0 * mm, z1 * mm, material));
    return *this;
  }
  Part& teeth(double r0, double r1, double z0, double z1, int count, double width_rad,
              const std::string& material, double first = 0) {
    const auto all = repeated(shapes::ring(r0 * mm, r1 * mm, z0 * mm, z1 * mm, material), count,
                              width_rad, first);
    blocks_.insert(blocks_.end(), all.begin(), all.end());
    return *this;
  }
  Part& slots(double r0, double r1, double z0, double z1, int count, double width_rad,
              const std::string& material, double first = 0) {
    const auto all = slotted(shapes::ring(r0 * mm, r1 * mm, z0 * mm, z1 * mm, material), count,
                             width_rad, first);
    blocks_.insert(blocks_.end(), all.begin(), all.end());
    return *this;
  }
  Part& sector(double r0, double r1, double z0, double z1, double from, double to,
               const std::string& material) {
    Block b = shapes::ring(r0 * mm, r1 * mm, z0 * mm, z1 * mm, material);
    b.from_rad = from;
    b.to_rad = to;
    blocks_.push_back(b);
    return *this;
  }
  [[nodiscard]] Mesh mesh(int segments = 144) const { return mesh_of_blocks(blocks_, segments); }

private:
  std::vector<Block> blocks_;
};

PictureItem item(const std::string& id, Mesh mesh, double height_mm, Role role = Role::placed) {
  PictureItem made;
  made.id = id;
  made.mesh = std::make_shared<const Mesh>(std::move(mesh));
  made.pose.height_m = height_mm * mm;
  made.role = role;
  made.material = made.mesh->ranges.front().material;
  return made;
}

Mesh case_mesh() {
  const std::string al = "aluminium";
  Part part;
  part.ring(24, 97, 0, 14, al).ring(88, 97, 14, 120, al).ring(91.5, 97, 120, 210, al);
  part.ring(88, 97, 214, 300, al).ring(91.8, 97, 210, 214, al);
  part.ring(88, 112, 300, 318, al).ring(97, 101, 284, 300, al);
  // Eight slots of one width and one wider.
  std::vector<double> middles;
  for (int i = 0; i < 9; ++i)
    middles.push_back(2 * pi * i / 9);
  for (std::size_t i = 0; i < 9; ++i) {
    const double half = i == 0 ? 0.15 : 0.075;
    const double next_half = i == 8 ? 0.15 : 0.075;
    const double from = middles[i] + half;
    const double to = middles[i] + 2 * pi / 9 - next_half;
    part.sector(88, 91.5, 120, 210, from, to, al);
  }
  return part.mesh(180);
}

Mesh friction_mesh(double r_in, double r_out, int teeth) {
  Part part;
  part.ring(r_in, r_out - 1, 0.45, 1.75, "steel");
  part.teeth(r_in - 3, r_in, 0.45, 1.75, teeth, pi / teeth, "steel");
  part.ring(r_in + 4, r_out, 0, 0.45, "friction lining");
  part.ring(r_in + 4, r_out, 1.75, 2.2, "friction lining");
  return part.mesh();
}

Mesh steel_mesh(double thickness, double r_in) {
  Part part;
  part.ring(r_in, 87.5, 0, thickness, "steel");
  for (int i = 0; i < 9; ++i) {
    const double half = i == 0 ? 0.14 : 0.065;
    part.sector(87.5, 91, 0, thickness, 2 * pi * i / 9 - half, 2 * pi * i / 9 + half, "steel");
  }
  return part.mesh();
}

Mesh drum_mesh() {
  const std::string fe = "iron";
  Part part;
  part.ring(69, 79, 0, 62, fe).ring(30, 79, 0, 9, fe).ring(18, 30, -22, 34, fe);
  part.ring(44, 52, -26, 0, fe).teeth(52, 55, -26, -4, 40, pi / 40, fe);
  part.teeth(64.5, 69, 18, 62, 24, pi / 24, fe).ring(79, 81.5, 50, 62, fe);
  part.ring(65, 69, 9, 18, fe);
  return part.mesh(160);
}

Mesh inner_plate(bool lined) {
  Part part;
  if (lined) {
    part.ring(44, 63, 0.4, 1.6, "steel").teeth(41, 44, 0.4, 1.6, 30, pi / 30, "steel");
    part.ring(47, 63.5, 0, 0.4, "friction lining").ring(47, 63.5, 1.6, 2.0, "friction lining");
  } else {
    part.ring(45, 64, 0, 2, "steel").teeth(64, 68.4, 0, 2, 24, pi / 26, "steel", pi / 24);
  }
  return part.mesh();
}

Mesh pinion_mesh() {
  Part part;
  part.ring(5, 14, 0, 26, "steel").teeth(14, 17, 0, 26, 21, pi / 21, "steel");
  return moved(part.mesh(60), 0, 0, 0);
}

void add_lower_train(Picture& picture) {
  auto& items = picture.items;
  items.push_back(item("output", Part().ring(0, 21, -90, 20, "steel").mesh(), 0));
  items.back().cut = false;
  items.push_back(item("flange",
                       Part()
                           .ring(22, 82, 17, 26, "steel")
                           .ring(76, 82, 26, 70, "steel")
                           .teeth(73, 76, 30, 66, 75, pi / 75, "steel")
                           .mesh(150),
                       0));
  items.push_back(item("rear-washer", Part().ring(24, 40, 26, 28.5, "bronze").mesh(), 0));
  const Mesh pinion = pinion_mesh();
  for (int k = 0; k < 4; ++k) {
    const double a = pi / 4 + k * pi / 2;
    items.push_back(item("pinion-" + std::to_string(k),
                         moved(pinion, -0.055 * std::sin(a), 0.055 * std::cos(a), 0.034), 0));
  }
  items.push_back(
      item("carrier", Part().ring(24, 70, 62, 70, "iron").ring(24, 30, 70, 92, "iron").mesh(), 0));
  items.push_back(item(
      "sun",
      Part().ring(16, 34, 30, 60, "steel").teeth(34, 37.5, 30, 60, 33, pi / 33, "steel").mesh(132),
      0));
  items.push_back(item("shaft",
                       Part()
                           .ring(0, 14.5, 22, 292, "steel")
                           .teeth(14.5, 16, 230, 286, 24, pi / 24, "steel")
                           .mesh(96),
                       0));
  items.back().cut = false;
}

void add_pack(Picture& picture) {
  auto& items = picture.items;
  items.push_back(item("support",
                       Part()
                           .ring(26, 88, 96, 112, "iron")
                           .ring(26, 44, 112, 150, "iron")
                           .ring(60, 88, 112, 120, "iron")
                           .ring(44, 48, 112, 118, "iron")
                           .mesh(),
                       0));
  items.push_back(item(
      "piston",
      Part().ring(49, 59.5, 113, 126, "aluminium").ring(49, 84, 121.5, 126, "aluminium").mesh(),
      0));
  items.push_back(item("seal", Part().ring(59.5, 60.3, 116, 119, "rubber").mesh(), 0));
  double z = 126.4;
  for (int i = 0; i < 4; ++i) {
    items.push_back(item("CC-S" + std::to_string(i + 1), steel_mesh(2.4, 62), z));
    z += 2.4;
    items.push_back(item("CC-F" + std::to_string(i + 1), friction_mesh(58, 84, 40), z));
    items.back().pose.turn_rad = 0.05 * i;
    z += 2.2;
  }
  items.push_back(item("CC-B", steel_mesh(7, 62), z));
  items.back().role = Role::mate;
  z += 7.5;
  items.push_back(item(
      "CC-R", Part().sector(84, 91.2, 0, 3.5, 0.12, 2 * pi - 0.12, "spring steel").mesh(), 210.2));
  items.push_back(item("washer", Part().ring(27, 40, 150, 152.5, "bronze").mesh(), 0));
}

void add_drum(Picture& picture, double z) {
  auto& items = picture.items;
  items.push_back(item("MD", drum_mesh(), z, Role::in_hand));
  items.push_back(
      item("MD-piston", Part().ring(31, 64, 9.5, 17, "aluminium").mesh(), z, Role::in_hand));
  items.push_back(item("MD-seal", Part().ring(64, 65, 11, 14, "rubber").mesh(), z, Role::in_hand));
  items.push_back(
      item("MD-bush", Part().ring(16.5, 18, -20, 0, "bronze").mesh(), z, Role::in_hand));
  double h = z + 20;
  for (int i = 0; i < 4; ++i) {
    items.push_back(item("MC-S" + std::to_string(i), inner_plate(false), h, Role::in_hand));
    h += 2;
    items.push_back(item("MC-F" + std::to_string(i), inner_plate(true), h, Role::in_hand));
    h += 2;
  }
  items.push_back(item("MC-B",
                       Part()
                           .ring(45, 64, 0, 6, "steel")
                           .teeth(64, 68.4, 0, 6, 24, pi / 26, "steel", pi / 24)
                           .mesh(),
                       h, Role::in_hand));
  items.push_back(item("MC-R",
                       Part().sector(60, 67, 0, 2.5, 0.1, 2 * pi - 0.1, "spring steel").mesh(),
                       h + 7, Role::in_hand));
}

} // namespace

Picture mock_picture() {
  Picture picture;
  picture.items.push_back(item("case", case_mesh(), 0, Role::mate));
  add_lower_train(picture);
  add_pack(picture);
  add_drum(picture, 262);
  for (std::size_t i = 0; i < picture.items.size(); ++i)
    picture.items[i].pick = static_cast<std::uint32_t>(i + 1);
  picture.cut = {true, 3.6, 3.6 + pi / 2};
  picture.camera.turn_rad = 3.6 + pi / 4 - 0.16;
  picture.camera.rise_rad = 0.52;
  picture.camera.distance_m = 1.10;
  picture.camera.look_at_m = 0.165;
  picture.camera.fov_rad = 0.42;
  KeyLight slot;
  slot.pair = 1;
  slot.item = "case";
  slot.angle_rad = 2 * pi / 9 * 2;
  slot.inner_m = 0.088;
  slot.outer_m = 0.0915;
  slot.low_m = 0.150;
  slot.high_m = 0.210;
  slot.width_m = 2 * 0.088 * std::sin(0.075);
  picture.keys.push_back(slot);
  KeyLight lug = slot;
  lug.item = "CC-B";
  lug.inner_m = 0.0875;
  lug.outer_m = 0.091;
  lug.low_m = 0;
  lug.high_m = 0.007;
  lug.width_m = 2 * 0.0875 * std::sin(0.065);
  picture.keys.push_back(lug);
  picture.up = UpArrow{"MD", 0.0745, 3.6 + pi / 4 + 2.0, 0.062, "open end up"};
  picture.fall = FallLine{0.0745, 3.6 + pi / 4 + 0.35, 0.255, 0.152};
  picture.turn = TurnArc{0.074, 0.336, 3.6 - 1.3, 3.6 - 0.25, "12 deg"};
  return picture;
}

} // namespace lugline::shapes

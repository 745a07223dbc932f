#include "viewer/stage/picture.h"

#include <cstdio>

namespace lugline {

namespace {

constexpr double degree_rad = 0.017453292519943295;

std::string fixed(double value, int places) {
  char buffer[64];
  const int length = std::snprintf(buffer, sizeof buffer, "%.*f", places, value);
  std::string text(buffer, static_cast<std::size_t>(length));
  // A figure that rounds to nothing has no sign.
  if (text.find_first_not_of("-0.") == std::string::npos && text.front() == '-') {
    text.erase(0, 1);
  }
  return text;
}

std::string mm(double length_m) {
  return fixed(length_m * 1e3, 3);
}
std::string deg(double angle_rad) {
  return fixed(angle_rad / degree_rad, 3);
}

const char* word(Role role) {
  switch (role) {
  case Role::in_hand:
    return "in hand";
  case Role::shown:
    return "shown";
  case Role::placed:
    return "placed";
  case Role::mate:
    return "mate";
  case Role::tool:
    return "tool";
  case Role::ghost:
    return "ghost";
  }
  return "";
}

std::string line_of(const PictureItem& item) {
  std::string line = "item " + item.id + ", " + word(item.role) + ", height " +
                     mm(item.pose.height_m) + " turn " + deg(item.pose.turn_rad) + " over " +
                     deg(item.pose.over_rad) + " about " + mm(item.pose.over_about_m) + " aside " +
                     mm(item.pose.aside_m) + ", " + item.material +
                     (item.cut ? ", cut" : ", whole") + (item.outline ? ", outline" : "") +
                     ", triangles " + std::to_string(item.mesh ? item.mesh->triangles.size() : 0);
  if (item.stretch) {
    line += ", stretched " + mm(item.stretch->delta_m) + " between " +
            mm(item.stretch->zone_low_m) + " and " + mm(item.stretch->zone_high_m);
  }
  return line;
}

} // namespace

std::string text_of(const Picture& picture) {
  std::string text;
  for (const PictureItem& item : picture.items) {
    text += line_of(item) + "\n";
  }
  for (const KeyLight& key : picture.keys) {
    text += "key " + std::to_string(key.pair) + " on " + key.item + " at " + deg(key.angle_rad) +
            ", radius " + mm(key.inner_m) + " to " + mm(key.outer_m) + ", height " + mm(key.low_m) +
            " to " + mm(key.high_m) + ", width " + mm(key.width_m) + "\n";
  }
  if (picture.up) {
    text += "up arrow on " + picture.up->item + " at radius " + mm(picture.up->radius_m) +
            " angle " + deg(picture.up->angle_rad) + " height " + mm(picture.up->height_m) + ": " +
            picture.up->words + "\n";
  }
  if (picture.fall) {
    text += "fall at radius " + mm(picture.fall->radius_m) + " angle " +
            deg(picture.fall->angle_rad) + " from " + mm(picture.fall->from_m) + " to " +
            mm(picture.fall->to_m) + "\n";
  }
  if (picture.turn) {
    text += "turn at radius " + mm(picture.turn->radius_m) + " height " +
            mm(picture.turn->height_m) + " from " + deg(picture.turn->from_rad) + " to " +
            deg(picture.turn->to_rad) + ": " + picture.turn->words + "\n";
  }
  for (const SceneLabel& label : picture.labels) {
    text += "label on " + label.item + " at radius " + mm(label.radius_m) + " angle " +
            deg(label.angle_rad) + " height " + mm(label.height_m) + ": " + label.words + "\n";
  }
  if (picture.cut.on) {
    text += "cut from " + deg(picture.cut.from_rad) + " to " + deg(picture.cut.to_rad) + "\n";
  }
  const Camera& camera = picture.camera;
  text += "camera turn " + deg(camera.turn_rad) + " rise " + deg(camera.rise_rad) + " distance " +
          mm(camera.distance_m) + " looks at " + mm(camera.look_at_m) + " pan " +
          mm(camera.pan_x_m) + " " + mm(camera.pan_y_m) + " field " + deg(camera.fov_rad) +
          (camera.axis_level ? " level" : "") + "\n";
  if (picture.hidden_edges) {
    text += "hidden edges\n";
  }
  if (picture.print_look) {
    text += "print look\n";
  }
  return text;
}

} // namespace lugline

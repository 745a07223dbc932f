#include "viewer/app/settings_file.h"

#include "viewer/panels/wish.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <fstream>
#include <sstream>

namespace lugline {

namespace {

using nlohmann::json;
constexpr std::size_t most_bytes = 64 * 1024;

bool flag(const json& object, const char* name, bool usual) {
  const auto found = object.find(name);
  return found != object.end() && found->is_boolean() ? found->get<bool>() : usual;
}

const char* word_for(SeeThrough when) {
  switch (when) {
  case SeeThrough::off:
    return "never";
  case SeeThrough::automatic:
    return "where it hides much";
  case SeeThrough::always:
    return "always";
  }
  return "";
}

} // namespace

std::string text_of(const Settings& settings) {
  nlohmann::ordered_json object;
  object["schema"] = 1;
  object["length_unit"] = settings.unit == LengthUnit::inch ? "in" : "mm";
  object["scale"] = settings.scale;
  object["motion"] = settings.motion;
  object["cut"] = settings.cut;
  object["print_look"] = settings.print_look;
  object["hidden_edges"] = settings.hidden_edges;
  object["see_through"] = word_for(settings.see_through);
  return object.dump(2) + "\n";
}

Settings settings_from(const std::string& text) {
  Settings settings;
  const json object = json::parse(text, nullptr, false);
  if (!object.is_object()) {
    return settings;
  }
  const auto unit = object.find("length_unit");
  if (unit != object.end() && unit->is_string() && unit->get<std::string>() == "in") {
    settings.unit = LengthUnit::inch;
  }
  const auto scale = object.find("scale");
  if (scale != object.end() && scale->is_number()) {
    settings.scale = std::clamp(scale->get<double>(), scales().front(), scales().back());
  }
  settings.motion = flag(object, "motion", settings.motion);
  settings.cut = flag(object, "cut", settings.cut);
  settings.print_look = flag(object, "print_look", settings.print_look);
  settings.hidden_edges = flag(object, "hidden_edges", settings.hidden_edges);
  const auto through = object.find("see_through");
  if (through != object.end() && through->is_string()) {
    for (const SeeThrough known : {SeeThrough::off, SeeThrough::automatic, SeeThrough::always}) {
      if (through->get<std::string>() == word_for(known)) {
        settings.see_through = known;
      }
    }
  }
  return settings;
}

Settings read_settings(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::string text(most_bytes, '\0');
  in.read(text.data(), static_cast<std::streamsize>(text.size()));
  text.resize(static_cast<std::size_t>(in.gcount()));
  return settings_from(text);
}

Outcome<bool> write_settings(const std::filesystem::path& file, const Settings& settings) {
  if (file.empty()) {
    return Problem{"there is no home folder to keep the settings in"};
  }
  std::error_code failed;
  std::filesystem::create_directories(file.parent_path(), failed);
  std::filesystem::path beside = file;
  beside += ".new";
  {
    std::ofstream out(beside, std::ios::binary | std::ios::trunc);
    out << text_of(settings);
    out.flush();
    if (!out) {
      return Problem{"the settings cannot be written to " + file.string()};
    }
  }
  std::filesystem::rename(beside, file, failed);
  if (failed) {
    return Problem{"the settings cannot be written to " + file.string() + ": " + failed.message()};
  }
  return true;
}

} // namespace lugline

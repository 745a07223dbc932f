#include "viewer/app/panel_fonts.h"

#include <imgui.h>
#include <imgui_freetype.h>

#include <array>
#include <filesystem>
#include <optional>

namespace lugline {

namespace {

constexpr std::array<const char*, 5> folders = {
    "/usr/share/fonts/opentype/inter", "/usr/share/fonts/truetype/inter", "/usr/share/fonts/inter",
    "/usr/local/share/fonts/opentype/inter", "/usr/local/share/fonts/inter"};

std::optional<std::string> file_of(const std::string& weight) {
  for (const char* folder : folders) {
    for (const char* ending : {".otf", ".ttf"}) {
      const std::filesystem::path file =
          std::filesystem::path(folder) / ("Inter-" + weight + ending);
      std::error_code ignored;
      if (std::filesystem::is_regular_file(file, ignored)) {
        return file.string();
      }
    }
  }
  return std::nullopt;
}

// Latin, and the marks that sentences and figures are written with.
constexpr std::array<ImWchar, 9> letters = {0x0020, 0x017f, 0x2010, 0x2027, 0x2030,
                                            0x2033, 0x2190, 0x2193, 0};

} // namespace

Outcome<PanelFonts> build_panel_fonts(double px, double coordinates_per_px) {
  ImGuiIO& io = ImGui::GetIO();
  io.Fonts->Clear();
  io.Fonts->FontBuilderIO = ImGuiFreeType::GetBuilderForFreeType();
  io.Fonts->FontBuilderFlags = ImGuiFreeTypeBuilderFlags_LightHinting;
  PanelFonts fonts;
  // Dear ImGui counts from the tallest letter to the deepest, 1.21 times the em.
  struct Wanted {
    ImFont** font;
    const char* weight;
    double size;
  };
  for (const Wanted& wanted :
       {Wanted{&fonts.body, "Regular", 20}, Wanted{&fonts.strong, "SemiBold", 20},
        Wanted{&fonts.small, "Regular", 16.5}, Wanted{&fonts.title, "Bold", 32}}) {
    const auto file = file_of(wanted.weight);
    if (!file) {
      return Problem{"the font Inter was not found; install fonts-inter"};
    }
    *wanted.font = io.Fonts->AddFontFromFileTTF(file->c_str(), static_cast<float>(wanted.size * px),
                                                nullptr, letters.data());
    if (*wanted.font == nullptr) {
      return Problem{"the font " + *file + " cannot be read; install fonts-inter again"};
    }
  }
  io.FontGlobalScale = static_cast<float>(coordinates_per_px);
  if (!io.Fonts->Build()) {
    return Problem{"the font Inter cannot be drawn"};
  }
  return fonts;
}

} // namespace lugline

#include "tests/panels/hand.h"

#include <utility>

namespace lugline::test {

namespace {

void add(Wishes& to, Wishes more) {
  for (Wish& wish : more) {
    to.push_back(std::move(wish));
  }
}

} // namespace

Hand::Hand(float scale, float width, float height) : width_(width), height_(height) {
  context_ = ImGui::CreateContext();
  ImGui::SetCurrentContext(context_);
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  io.LogFilename = nullptr;
  io.DisplaySize = {width, height};
  io.DeltaTime = 1.0f / 60;
  io.ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
  for (int key = 0; key < ImGuiKey_COUNT; ++key) {
    io.KeyMap[key] = key;
  }
  ImFontConfig config;
  config.SizePixels = 16 * scale;
  ImFont* font = io.Fonts->AddFontDefault(&config);
  unsigned char* pixels = nullptr;
  int wide = 0;
  int high = 0;
  io.Fonts->GetTexDataAsAlpha8(&pixels, &wide, &high);
  style_.scale = scale;
  style_.fonts = {font, font, font, font};
  apply_style(style_);
}

Hand::~Hand() {
  ImGui::DestroyContext(context_);
}

Wishes Hand::frame(const Panel& panel) {
  ImGui::NewFrame();
  Wishes wishes = panel();
  ImGui::Render();
  return wishes;
}

Wishes Hand::click(ImVec2 at, const Panel& panel) {
  ImGuiIO& io = ImGui::GetIO();
  Wishes wishes;
  io.MousePos = at;
  add(wishes, frame(panel));
  io.MouseDown[0] = true;
  add(wishes, frame(panel));
  io.MouseDown[0] = false;
  add(wishes, frame(panel));
  add(wishes, frame(panel));
  return wishes;
}

Wishes Hand::press_key(ImGuiKey key, const Panel& panel) {
  ImGuiIO& io = ImGui::GetIO();
  Wishes wishes;
  io.KeysDown[key] = true;
  add(wishes, frame(panel));
  io.KeysDown[key] = false;
  add(wishes, frame(panel));
  return wishes;
}

Wishes Hand::type(const std::string& text, const Panel& panel) {
  Wishes wishes;
  for (const char c : text) {
    ImGui::GetIO().AddInputCharactersUTF8(std::string(1, c).c_str());
    add(wishes, frame(panel));
  }
  return wishes;
}

} // namespace lugline::test

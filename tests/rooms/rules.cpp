#include "tests/rooms/rules.h"

#include <algorithm>
#include <array>
#include <cctype>

namespace lugline::rooms {

namespace {

// A room may use itself and the rooms before it.
constexpr std::array<std::string_view, 16> rooms = {
    "scene/quantity", "scene/mesh",    "scene/part",  "scene/recipe", "scene/load",  "scene/seat",
    "scene/pack",     "scene/drive",   "scene/build", "scene/record", "scene/sheet", "viewer/stage",
    "viewer/draw",    "viewer/panels", "viewer/app",  "viewer/cli",
};

// How the headers of each viewer library begin.
constexpr std::array<std::string_view, 6> opengl = {"GL/",    "GLES", "EGL/",
                                                    "epoxy/", "KHR/", "GLFW/"};
constexpr std::array<std::string_view, 1> imgui = {"imgui"};
// Not installed where only the library is built.
constexpr std::array<std::string_view, 4> for_pictures = {"glm/", "ft2build", "freetype", "stb"};

template <std::size_t count>
bool begins_with_one_of(std::string_view text, const std::array<std::string_view, count>& starts) {
  return std::any_of(starts.begin(), starts.end(),
                     [&](std::string_view start) { return text.starts_with(start); });
}

// "scene/seat" of "scene/seat/drop.h"; empty where there is no room.
std::string_view room_of(std::string_view path) {
  const std::size_t first = path.find('/');
  if (first == std::string_view::npos)
    return {};
  const std::size_t second = path.find('/', first + 1);
  if (second == std::string_view::npos)
    return {};
  return path.substr(0, second);
}

// Its place in the table, or the table's size.
std::size_t place_of(std::string_view room) {
  return static_cast<std::size_t>(std::find(rooms.begin(), rooms.end(), room) - rooms.begin());
}

std::string at(const std::string& path, int line) {
  return path + ':' + std::to_string(line) + ": ";
}

bool is_word(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_';
}

bool has_word(std::string_view text, std::string_view word) {
  for (std::size_t i = text.find(word); i != std::string_view::npos; i = text.find(word, i + 1)) {
    const bool begins = i == 0 || !is_word(text[i - 1]);
    const std::size_t end = i + word.size();
    if (begins && (end == text.size() || !is_word(text[end])))
      return true;
  }
  return false;
}

// Reads C++ a character at a time, blanking what is not code.
class Blanker {
public:
  explicit Blanker(std::string_view source) : source_(source), code_(source) {}

  std::string run() {
    bool fresh_line = true;
    while (i_ < source_.size()) {
      const char c = source_[i_];
      if (c == '\n')
        fresh_line = true;
      if (starts("//"))
        blank_until("\n");
      else if (starts("/*"))
        blank_past("*/");
      else if (c == '#' && fresh_line)
        blank_directive();
      else if (starts("R\"") && (i_ == 0 || !is_word(source_[i_ - 1])))
        blank_raw();
      else if (c == '"' || (c == '\'' && (i_ == 0 || !is_word(source_[i_ - 1]))))
        blank_literal(c);
      else {
        if (c != ' ' && c != '\t' && c != '\n')
          fresh_line = false;
        ++i_;
      }
    }
    return std::move(code_);
  }

private:
  [[nodiscard]] bool starts(std::string_view text) const {
    return source_.substr(i_).starts_with(text);
  }

  void blank(std::size_t end) {
    for (end = std::min(end, source_.size()); i_ < end; ++i_)
      if (code_[i_] != '\n')
        code_[i_] = ' ';
  }

  void blank_until(std::string_view stop) { blank(source_.find(stop, i_)); }

  void blank_past(std::string_view stop) {
    const std::size_t found = source_.find(stop, i_ + 2);
    blank(found == std::string_view::npos ? found : found + stop.size());
  }

  void blank_directive() {
    std::size_t end = source_.find('\n', i_);
    while (end != std::string_view::npos && end > 0 && source_[end - 1] == '\\')
      end = source_.find('\n', end + 1);
    blank(end);
  }

  void blank_raw() {
    const std::size_t open = source_.find('(', i_);
    const std::string stop = ')' + std::string(source_.substr(i_ + 2, open - i_ - 2)) + '"';
    blank_past(stop);
  }

  void blank_literal(char quote) {
    std::size_t end = i_ + 1;
    while (end < source_.size() && source_[end] != quote && source_[end] != '\n')
      end += source_[end] == '\\' ? 2 : 1;
    ++i_;
    blank(end);
    if (i_ < source_.size() && source_[i_] == quote)
      ++i_;
  }

  std::string_view source_;
  std::string code_;
  std::size_t i_ = 0;
};

// One declaration at namespace level, or one that begins with static anywhere: is it a
// variable that can change? `text` ends before its first ';', '=' or '{'.
bool can_change(std::string_view text) {
  for (const std::string_view word :
       {"using", "typedef", "struct", "class", "enum", "union", "template", "friend",
        "static_assert", "namespace", "concept", "extern", "operator", "constexpr"})
    if (has_word(text, word))
      return false;
  // A function; a variable with its value in round brackets passes for one, so it is
  // to be written with '=' or '{'.
  if (text.find('(') != std::string_view::npos)
    return false;
  const auto is_space = [](char c) { return std::isspace(static_cast<unsigned char>(c)) != 0; };
  if (std::all_of(text.begin(), text.end(), is_space))
    return false;
  const std::size_t star = text.rfind('*');
  return !has_word(star == std::string_view::npos ? text : text.substr(star), "const");
}

struct Scanner {
  const std::string& path;
  const std::string code;
  std::vector<std::string> complaints;

  void complain(std::size_t from) {
    const auto line =
        std::count(code.begin(), code.begin() + static_cast<std::ptrdiff_t>(from), '\n');
    complaints.push_back(at(path, static_cast<int>(line) + 1) +
                         "a variable that outlives the call and can change");
  }

  std::size_t end_of_declaration(std::size_t from) const {
    return std::min(code.find_first_of(";={", from), code.size());
  }

  // static and thread_local, wherever they stand.
  void scan_keywords() {
    for (std::size_t i = 0; i < code.size(); ++i) {
      for (const std::string_view word :
           {std::string_view("static"), std::string_view("thread_local")}) {
        const bool begins = i == 0 || !is_word(code[i - 1]);
        const std::size_t end = i + word.size();
        if (!begins || code.compare(i, word.size(), word) != 0 ||
            (end < code.size() && is_word(code[end])))
          continue;
        const std::string_view text(code.data() + end, end_of_declaration(end) - end);
        if (can_change(text))
          complain(i);
      }
    }
  }

  // Declarations that stand in namespaces and nothing else.
  void scan_namespaces() {
    enum class Brace { of_namespace, of_body, of_value };
    std::vector<Brace> braces;
    int brackets = 0;       // round ones open here
    bool value = false;     // past a '=' outside round brackets
    std::size_t begin = 0;  // of the declaration
    std::size_t inside = 0; // braces open that are no namespace's
    const auto start_anew = [&](std::size_t i) {
      begin = i + 1;
      brackets = 0;
      value = false;
    };
    const auto judge = [&](std::size_t i) {
      const std::string_view text(code.data() + begin, i - begin);
      const bool told_already = has_word(text, "static") || has_word(text, "thread_local");
      if (inside == 0 && !told_already && can_change(text.substr(0, text.find('='))))
        complain(i);
    };
    for (std::size_t i = 0; i < code.size(); ++i) {
      const char c = code[i];
      const std::string_view text(code.data() + begin, i - begin);
      if (c == '(')
        ++brackets;
      else if (c == ')')
        --brackets;
      else if (c == '=' && brackets == 0 && !has_word(text, "operator"))
        value = true;
      else if (c == '{') {
        const bool opens = has_word(text, "namespace");
        if (!opens && !value && brackets == 0)
          judge(i);
        braces.push_back(opens                   ? Brace::of_namespace
                         : value || brackets > 0 ? Brace::of_value
                                                 : Brace::of_body);
        inside += opens ? 0 : 1;
        if (braces.back() != Brace::of_value)
          start_anew(i);
      } else if (c == '}' && !braces.empty()) {
        const Brace closed = braces.back();
        braces.pop_back();
        inside -= closed == Brace::of_namespace ? 0 : 1;
        if (closed != Brace::of_value)
          start_anew(i);
      } else if (c == ';') {
        judge(i);
        start_anew(i);
      }
    }
  }
};

} // namespace

std::string code_of(std::string_view source) {
  return Blanker(source).run();
}

std::vector<Include> includes_of(std::string_view source) {
  std::vector<Include> found;
  int line = 0;
  for (std::size_t begin = 0; begin < source.size();) {
    ++line;
    const std::size_t end = std::min(source.find('\n', begin), source.size());
    std::string_view text = source.substr(begin, end - begin);
    begin = end + 1;
    const auto skip = [&](std::string_view expected) {
      text.remove_prefix(std::min(text.find_first_not_of(" \t"), text.size()));
      const bool there = text.starts_with(expected);
      if (there)
        text.remove_prefix(expected.size());
      return there;
    };
    if (!skip("#") || !skip("include"))
      continue;
    const bool quoted = skip("\"");
    if (!quoted && !skip("<"))
      continue;
    const std::size_t close = text.find(quoted ? '"' : '>');
    if (close != std::string_view::npos)
      found.push_back({line, std::string(text.substr(0, close)), quoted});
  }
  return found;
}

std::vector<std::string> wrong_includes(const std::string& path, std::string_view source) {
  const std::string_view room = room_of(path);
  const std::size_t place = place_of(room);
  if (place == rooms.size())
    return {path + ": is in no room of the table"};
  const bool no_window =
      room.starts_with("scene/") || room == "viewer/stage" || room == "viewer/cli";
  std::vector<std::string> complaints;
  for (const Include& include : includes_of(source)) {
    const auto complain = [&, line = include.line](const std::string& words) {
      complaints.push_back(at(path, line) + words);
    };
    const std::string& target = include.path;
    const bool ours = target.starts_with("scene/") || target.starts_with("viewer/");
    if (ours) {
      const std::size_t target_place = place_of(room_of(target));
      if (target_place == rooms.size())
        complain(target + " is in no room of the table");
      else if (target_place > place)
        complain(std::string(room) + " may not include " + target + ": its room is further down");
    } else if (include.quoted) {
      complain("write " + target + " from the top of the tree, or in <> if it is not ours");
    }
    if (no_window && (begins_with_one_of(target, opengl) || begins_with_one_of(target, imgui)))
      complain(std::string(room) + " may not include " + target);
    if (room == "viewer/panels" && begins_with_one_of(target, opengl))
      complain("panels may not include " + target);
    if (room.starts_with("scene/") && begins_with_one_of(target, for_pictures))
      complain("scene may not include " + target + ": it is not there without a viewer");
  }
  return complaints;
}

std::vector<std::string> outside_influences(const std::string& path, std::string_view source) {
  std::vector<std::string> complaints;
  for (const Include& include : includes_of(source))
    for (const std::string_view header :
         {"chrono", "ctime", "time.h", "sys/time.h", "clocale", "locale", "locale.h", "thread"})
      if (include.path == header)
        complaints.push_back(at(path, include.line) + "scene may not include <" + include.path +
                             '>');
  const std::string code = code_of(source);
  for (const std::string_view word : {"getenv", "secure_getenv", "random_device", "setlocale",
                                      "srand", "rand", "clock_gettime", "gettimeofday"})
    if (has_word(code, word))
      complaints.push_back(path + ": scene may not use " + std::string(word));
  return complaints;
}

std::vector<std::string> lasting_state(const std::string& path, std::string_view source) {
  Scanner scanner{path, code_of(source), {}};
  scanner.scan_keywords();
  scanner.scan_namespaces();
  return scanner.complaints;
}

} // namespace lugline::rooms

#include "scene/recipe/figure_reader.h"
#include "scene/recipe/kinds.h"
#include "scene/recipe/measures.h"
#include "scene/recipe/recipe.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <set>
#include <sstream>
#include <system_error>

namespace lugline {

namespace {

constexpr std::uintmax_t largest_file = 4 << 20;
constexpr std::size_t most_parts = 512;
constexpr int schema = 1;

std::optional<std::string> text_of_file(const std::filesystem::path& path, const std::string& name,
                                        std::vector<Complaint>& complaints) {
  std::error_code error;
  const std::uintmax_t size = std::filesystem::file_size(path, error);
  if (error || !std::filesystem::is_regular_file(path, error)) {
    complaints.push_back({name, 0, 0, "cannot be read: " + error.message(), ""});
    return std::nullopt;
  }
  if (size > largest_file) {
    complaints.push_back({name, 0, 0, "is larger than 4 MiB: not a file of recipes", ""});
    return std::nullopt;
  }
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  if (!in) {
    complaints.push_back({name, 0, 0, "cannot be read", ""});
    return std::nullopt;
  }
  return text.str();
}

/// An id also names the part's file.
bool is_id(const std::string& id) {
  return !id.empty() && id.size() <= 64 && std::ranges::all_of(id, [](char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' ||
           c == '_';
  });
}

class Book {
public:
  Book(std::string file, const MeshOptions& options, const MakeProgress& progress)
      : file_(std::move(file)), options_(options), progress_(progress) {}

  RecipeBook make(const FigureTable& table) {
    FigureReader root(table, file_, file_, book_.complaints);
    const bool understood = schema_is_understood(root);
    root.text_or("label", "");
    const std::vector<FigureReader> parts = read_parts(table);
    root.tables("part");
    root.finish("the file");
    if (understood) {
      make_all(parts);
    }
    if (!book_.complaints.empty() || book_.stopped) {
      book_.parts.clear();
      std::ranges::stable_sort(book_.complaints, {}, &Complaint::line);
    }
    return std::move(book_);
  }

private:
  static bool schema_is_understood(FigureReader& root) {
    const int read = root.count("schema", 0, 1 << 20);
    if (root.ok() && read != schema) {
      root.impossible("schema", "is " + std::to_string(read) + ", and only schema " +
                                    std::to_string(schema) + " is understood");
    }
    return root.ok();
  }

  void make_all(const std::vector<FigureReader>& parts) {
    for (std::size_t k = 0; k < parts.size() && !book_.stopped; ++k) {
      if (progress_ && !progress_(k, parts.size(), parts[k].what())) {
        book_.stopped = true;
      } else {
        make_part(parts[k]);
      }
    }
  }

  std::vector<FigureReader> read_parts(const FigureTable& table) {
    std::vector<FigureReader> parts;
    const auto found = table.values.find("part");
    if (found == table.values.end() || found->second.type != FigureValue::Type::tables) {
      book_.complaints.push_back({file_, 0, 0, "holds no parts", "each is a [[part]]"});
      return parts;
    }
    if (found->second.tables.size() > most_parts) {
      book_.complaints.push_back({file_, found->second.line, found->second.column,
                                  "holds more than " + std::to_string(most_parts) + " parts", ""});
      return parts;
    }
    for (const FigureTable& one : found->second.tables) {
      const auto id = one.values.find("id");
      const bool named = id != one.values.end() && id->second.type == FigureValue::Type::text;
      parts.emplace_back(one, file_, named ? id->second.text : "a part", book_.complaints);
    }
    return parts;
  }

  const Recipe* recipe_of(FigureReader& f) {
    const std::string word = f.text("recipe");
    std::vector<std::string> words;
    for (const Recipe& recipe : recipes()) {
      if (word == recipe.word) {
        return &recipe;
      }
      words.emplace_back(recipe.word);
    }
    if (!word.empty()) {
      f.word("recipe", words);
    }
    return nullptr;
  }

  void make_part(FigureReader f) {
    MadePart part;
    Component& component = part.component;
    component.id = f.text("id");
    if (!component.id.empty() && !is_id(component.id)) {
      f.impossible("id", "may have letters, figures, - and _, at most 64 of them");
    } else if (!component.id.empty() && !ids_.insert(component.id).second) {
      f.impossible("id", "is the id of another part of this file too");
    }
    component.name = f.text("name");
    const Recipe* recipe = recipe_of(f);
    if (recipe == nullptr) {
      return;
    }
    component.material = f.word_or("material", recipe->material, materials());
    const std::vector<Mark> marks = read_marks(f);
    recipe->make(f, options_, part);
    f.finish(std::string("the ") + recipe->word + " recipe");
    if (!f.ok()) {
      return;
    }
    component.marks.insert(component.marks.begin(), marks.begin(), marks.end());
    if (component.mass_kg == 0) {
      component.mass_kg = mass_kg(component.solid, component.material);
    }
    book_.parts.push_back(std::move(part));
  }

  static std::vector<Mark> read_marks(FigureReader& f) {
    std::vector<Mark> marks;
    for (FigureReader& t : f.tables("mark")) {
      Mark mark;
      mark.words = t.text("words");
      mark.radius_m = t.length("diameter") / 2;
      mark.angle_rad = t.angle_or("at", 0);
      mark.height_m = t.height("height");
      t.finish("a mark");
      marks.push_back(mark);
    }
    return marks;
  }

  std::string file_;
  const MeshOptions& options_;
  const MakeProgress& progress_;
  std::set<std::string> ids_;
  RecipeBook book_;
};

} // namespace

RecipeBook make_parts(const std::filesystem::path& recipes_toml, const MeshOptions& options,
                      const MakeProgress& progress) {
  const std::string name = recipes_toml.filename().string();
  RecipeBook book;
  const std::optional<std::string> text = text_of_file(recipes_toml, name, book.complaints);
  if (!text) {
    return book;
  }
  const std::optional<FigureTable> table = figure_table_from(*text, name, book.complaints);
  if (!table) {
    return book;
  }
  return Book(name, options, progress).make(*table);
}

} // namespace lugline

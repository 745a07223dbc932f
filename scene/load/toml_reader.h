// TOML tables, read strictly: every key that is asked for is known, and any
// other is a complaint.
//
// A TableReader points into a parsed document, which must outlive it. What it
// reads is in SI. Anything wrong (another type, a bare number where a unit is
// meant, a word that is not known) goes to the Findings with its line and
// column, and the answer is empty: a caller goes on with what it has.
#pragma once

#include "scene/load/findings.h"
#include "scene/quantity/quantity.h"

#include <toml++/toml.h>

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lugline {

/// Where each key of a table was written; for judgements made later.
class KeyPlaces {
public:
  KeyPlaces() = default;
  explicit KeyPlaces(SourcePlace table) : table_(std::move(table)) {}
  void set(const std::string& key, const SourcePlace& at) { keys_[key] = at; }
  /// The key's place; the table's own where the key is not there.
  [[nodiscard]] const SourcePlace& of(const std::string& key) const {
    const auto found = keys_.find(key);
    return found == keys_.end() ? table_ : found->second;
  }
  [[nodiscard]] bool has(const std::string& key) const { return keys_.contains(key); }
  [[nodiscard]] const SourcePlace& table() const { return table_; }

private:
  SourcePlace table_;
  std::map<std::string, SourcePlace> keys_;
};

/// The document of a TOML text; empty where it does not parse, which is then
/// a complaint with its place.
std::optional<toml::table> parse_toml(const std::string& text, const std::string& file,
                                      Findings& findings);

class TableReader {
public:
  /// what: how messages call it ("step 'cc-piston'"); may be set later.
  TableReader(const toml::table& table, std::string file, std::string what, Findings& findings);

  void call_it(std::string what) { what_ = std::move(what); }
  [[nodiscard]] const std::string& what() const { return what_; }
  [[nodiscard]] const SourcePlace& at() const { return places_.table(); }
  [[nodiscard]] const KeyPlaces& places() const { return places_; }
  [[nodiscard]] bool has(std::string_view key) const { return table_->contains(key); }

  std::optional<WrittenText> text(const std::string& key);
  std::optional<WrittenText> required_text(const std::string& key);
  /// The text, or what stands in `otherwise`.
  std::string text_or(const std::string& key, std::string otherwise);
  /// A name that others refer to: not empty, at most 64 bytes, with no '/'
  /// and no control characters.
  std::optional<WrittenText> id(const std::string& key);
  std::optional<Written<bool>> flag(const std::string& key);
  std::optional<Written<int>> whole(const std::string& key, int low, int high);
  std::optional<Written<double>> number(const std::string& key, double low, double high);
  std::optional<Written<double>> quantity(const std::string& key, Dimension dimension);
  /// The place of the i-th is kept under "key[i]".
  std::vector<WrittenText> texts(const std::string& key);
  std::vector<Written<double>> quantities(const std::string& key, Dimension dimension);
  /// Two lengths, the lower first.
  std::optional<Limits> limits(const std::string& key);
  std::optional<TableReader> table(const std::string& key, const std::string& what);
  /// An array of tables; [[key]] in the file.
  std::vector<TableReader> tables(const std::string& key, const std::string& what);

  template <class E>
  std::optional<E> word(const std::string& key, std::optional<E> (*from)(const std::string&),
                        std::vector<std::string> (*words)()) {
    const std::optional<WrittenText> written = text(key);
    if (!written) {
      return std::nullopt;
    }
    std::optional<E> value = from(written->value);
    if (!value) {
      unknown_word(key, *written, words());
    }
    return value;
  }

  /// A complaint that names this table and the key.
  void complain(const std::string& key, const std::string& message, std::string hint = {});
  void ask(const std::string& key, const std::string& message, std::string hint = {});

  /// Complains of every key that nobody asked for. Call it last.
  void finish();

private:
  const toml::node* find(const std::string& key);
  [[nodiscard]] SourcePlace place_of(const toml::source_region& region) const;
  std::optional<WrittenText> as_text(const std::string& key, const toml::node& node);
  std::optional<Written<double>> as_quantity(const std::string& key, const toml::node& node,
                                             Dimension dimension);
  const toml::array* find_array(const std::string& key, const std::string& of_what);
  void wrong_type(const std::string& key, const toml::node& node, const std::string& expected);
  void unknown_word(const std::string& key, const WrittenText& written,
                    const std::vector<std::string>& words);

  const toml::table* table_;
  std::string file_;
  std::string what_;
  Findings* findings_;
  KeyPlaces places_;
  std::vector<std::string> known_;
};

/// Whether a file's `schema` is the one understood here, which is 1. Anything
/// else is a complaint, and the file is to be left alone.
bool schema_is_understood(TableReader& root);

} // namespace lugline

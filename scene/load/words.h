// Tables of words for enumerations, and things found by their id. Internal to scene/load.
#pragma once

#include <algorithm>
#include <array>
#include <cassert>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace lugline {

template <class E>
using Word = std::pair<E, const char*>;

template <class Table, class E>
std::string word_in(const Table& table, E value) {
  const auto found = std::ranges::find(table, value, &Word<E>::first);
  assert(found != table.end());
  return found->second;
}

template <class E, class Table>
std::optional<E> value_in(const Table& table, const std::string& word) {
  for (const auto& [value, known] : table) {
    if (word == known) {
      return value;
    }
  }
  return std::nullopt;
}

template <class Table>
std::vector<std::string> words_in(const Table& table) {
  std::vector<std::string> words;
  for (const auto& entry : table) {
    words.emplace_back(entry.second);
  }
  return words;
}

template <class T>
const T* with_id(const std::vector<T>& all, const std::string& id) {
  const auto found = std::ranges::find(all, id, &T::id);
  return found == all.end() ? nullptr : &*found;
}

} // namespace lugline

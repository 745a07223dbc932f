#include "scene/drive/faults.h"

#include "scene/drive/behaviour.h"
#include "scene/drive/train_words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace lugline {

namespace {

constexpr std::array<std::pair<FaultKind, const char*>, 6> kinds = {{
    {FaultKind::not_applied, "not applied"},
    {FaultKind::worn, "worn"},
    {FaultKind::leaking, "leaking"},
    {FaultKind::stuck_on, "stuck on"},
    {FaultKind::reversed, "reversed"},
    {FaultKind::fallen_out, "fallen out"},
}};

constexpr std::array<std::pair<Notice, const char*>, 8> notices = {{
    {Notice::as_it_should, "as it should"},
    {Notice::slips, "slips"},
    {Notice::no_drive, "no drive"},
    {Notice::other_ratio, "other ratio"},
    {Notice::locks_up, "locks up"},
    {Notice::drives_in_neutral, "drives in neutral"},
    {Notice::no_engine_braking, "no engine braking"},
    {Notice::brakes, "brakes"},
}};

template <class Table, class Word>
std::string word_in(const Table& table, Word sought) {
  for (const auto& [value, word] : table) {
    if (value == sought) {
      return word;
    }
  }
  return {};
}

template <class Word, class Table>
std::optional<Word> found_in(const Table& table, const std::string& sought) {
  for (const auto& [value, word] : table) {
    if (sought == word) {
      return value;
    }
  }
  return std::nullopt;
}

std::string share_words(double share) {
  return print_figure(FigureOf::share, share, LengthUnit::millimetre);
}

bool one_way_only(FaultKind kind) {
  return kind == FaultKind::reversed || kind == FaultKind::fallen_out;
}

// Faults that an element can have, with these figures.
std::vector<Fault> faults_of(const DriveElement& element, const FaultAssumptions& assumed) {
  if (element.kind == ElementKind::one_way_clutch) {
    return {{FaultKind::fallen_out, element.id, 0, {}},
            {FaultKind::reversed, element.id, 0, {}},
            {FaultKind::stuck_on, element.id, 0, {}}};
  }
  return {{FaultKind::not_applied, element.id, 0, {}},
          {FaultKind::worn, element.id, assumed.worn_left, {}},
          {FaultKind::leaking, element.id, assumed.leak_left, {}},
          {FaultKind::stuck_on, element.id, 0, {}}};
}

std::string first_trouble(const Drive& drive) {
  const std::vector<std::string> troubles = train_troubles(drive);
  if (!troubles.empty()) {
    return troubles.front();
  }
  if (drive.ranges.empty()) {
    return "The unit states no ranges: there is nothing that a fault could change.";
  }
  for (const DriveRange& range : drive.ranges) {
    for (const std::string& id : range.on) {
      if (drive.element(id) == nullptr) {
        return "The range '" + range.id + "' applies '" + id + "': there is no such element.";
      }
    }
  }
  return {};
}

} // namespace

std::string word_for(FaultKind kind) {
  return word_in(kinds, kind);
}

std::optional<FaultKind> fault_kind_from(const std::string& word) {
  return found_in<FaultKind>(kinds, word);
}

std::string word_for(Notice notice) {
  return word_in(notices, notice);
}

std::optional<Notice> notice_from(const std::string& word) {
  return found_in<Notice>(notices, word);
}

std::vector<std::string> notice_words() {
  std::vector<std::string> words;
  for (const auto& [notice, word] : notices) {
    words.emplace_back(word);
  }
  return words;
}

bool RangeBehaviour::shows(Notice notice) const {
  return std::ranges::find(notices, notice) != notices.end();
}

std::string words_of(const Drive& drive, const Fault& fault) {
  const std::string name = name_of_element(drive, fault.element);
  switch (fault.kind) {
  case FaultKind::not_applied:
    return name + " not applied";
  case FaultKind::worn:
    return name + " worn: " + share_words(fault.left) + " of its capacity left";
  case FaultKind::leaking: {
    std::vector<std::string> parts;
    for (const RangePressure& read : fault.read) {
      const DriveRange* range = drive.range(read.range);
      parts.push_back(print_figure(FigureOf::pressure, read.gauge_Pa, LengthUnit::millimetre) +
                      " in " +
                      (range == nullptr || range->name.empty() ? read.range : range->name));
    }
    const std::string rest =
        fault.left >= 1 ? "all of its pressure" : share_words(fault.left) + " of its pressure";
    if (parts.empty()) {
      return name + " leaking: " + rest + " left";
    }
    return name + " leaking: " + listed(parts) + ", elsewhere " + rest;
  }
  case FaultKind::stuck_on:
    return name + (drive.element(fault.element) != nullptr &&
                           drive.element(fault.element)->kind == ElementKind::one_way_clutch
                       ? " seized"
                       : " stuck on");
  case FaultKind::reversed:
    return name + " reversed";
  case FaultKind::fallen_out:
    return name + " fallen out";
  }
  return {};
}

std::string words_of(const Drive& drive, const std::vector<Fault>& faults) {
  std::string words;
  for (const Fault& fault : faults) {
    words += (words.empty() ? "" : " and ") + words_of(drive, fault);
  }
  return words;
}

std::string fault_trouble(const Drive& drive, const Fault& fault) {
  const DriveElement* element = drive.element(fault.element);
  if (element == nullptr) {
    return "There is no element '" + fault.element + "'.";
  }
  const bool one_way = element->kind == ElementKind::one_way_clutch;
  if (fault.kind != FaultKind::stuck_on && one_way != one_way_only(fault.kind)) {
    return "The " + word_for(element->kind) + " '" + fault.element + "' cannot be " +
           word_for(fault.kind) + ".";
  }
  const bool shared = fault.kind == FaultKind::worn || fault.kind == FaultKind::leaking;
  if (shared && !(fault.left >= 0 && fault.left <= 1)) {
    return "What is left of '" + fault.element + "' is a share between 0 and 1.";
  }
  for (const RangePressure& read : fault.read) {
    if (drive.range(read.range) == nullptr) {
      return "There is no range '" + read.range + "'.";
    }
    if (!(read.gauge_Pa >= 0) || !std::isfinite(read.gauge_Pa)) {
      return "A pressure at '" + fault.element + "' is below nothing.";
    }
  }
  return {};
}

std::vector<RangeBehaviour> behave(const Drive& drive, const ElementPacks& packs,
                                   const std::vector<Fault>& faults) {
  std::string trouble = first_trouble(drive);
  for (const Fault& fault : faults) {
    trouble = trouble.empty() ? fault_trouble(drive, fault) : trouble;
  }
  if (trouble.empty()) {
    return Behaviours(drive, packs).of(faults);
  }
  std::vector<RangeBehaviour> refused;
  for (const DriveRange& range : drive.ranges) {
    RangeBehaviour one;
    one.range = range.id;
    one.words = trouble;
    refused.push_back(std::move(one));
  }
  return refused;
}

FaultTable fault_table(const Drive& drive, const ElementPacks& packs,
                       const FaultAssumptions& assumed) {
  FaultTable table;
  table.refused = first_trouble(drive);
  const auto is_share = [](double share) { return share >= 0 && share <= 1; };
  if (table.refused.empty() && (!is_share(assumed.worn_left) || !is_share(assumed.leak_left))) {
    table.refused = "What wear or a leak leaves is a share between 0 and 1.";
  }
  if (!table.refused.empty()) {
    return table;
  }
  Behaviours behaviours(drive, packs);
  table.sound = {{}, "Sound", behaviours.of({})};
  for (const DriveElement& element : drive.elements) {
    for (const Fault& fault : faults_of(element, assumed)) {
      table.rows.push_back({{fault}, words_of(drive, fault), behaviours.of({fault})});
    }
  }
  table.notes = {"What wear and leaks leave, " + share_words(assumed.worn_left) +
                     " of the capacity and " + share_words(assumed.leak_left) +
                     " of the pressure, are examples to show what such a fault does, not findings.",
                 "How late or how hard a range takes hold is not worked out."};
  return table;
}

std::vector<std::string> lines_of(const FaultTable& table) {
  if (!table.refused.empty()) {
    return {table.refused};
  }
  std::vector<std::string> lines;
  for (const FaultRow& row : table.rows) {
    lines.push_back(row.words);
    bool changes = false;
    for (const RangeBehaviour& range : row.ranges) {
      if (!range.shows(Notice::as_it_should)) {
        lines.push_back("  " + range.range + ": " + range.words);
        changes = true;
      }
    }
    if (!changes) {
      lines.emplace_back("  every range as it should");
    }
  }
  lines.insert(lines.end(), table.notes.begin(), table.notes.end());
  return lines;
}

} // namespace lugline

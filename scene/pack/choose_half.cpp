#include "scene/pack/choose_half.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>
#include <tuple>
#include <utility>

namespace lugline::choosing {

namespace {

constexpr std::size_t most_ways = 400'000;
constexpr std::size_t most_sizes = 250;
constexpr std::int64_t same_nm = 100;
constexpr std::int64_t alike_nm = 30'000;

std::string shelf_of(const std::vector<SelectivePart>& parts, std::size_t i) {
  return parts[i].sort.empty() ? "\n" + std::to_string(i) : parts[i].sort;
}

/// The option that stands for what is fitted, or none.
std::optional<std::size_t> own_option(const SelectivePart& part) {
  std::optional<std::size_t> nearest;
  std::int64_t nearest_nm = alike_nm + 1;
  for (std::size_t i = 0; i < part.options_m.size(); ++i) {
    const std::int64_t apart_nm = std::abs(nm(part.options_m[i]) - nm(part.fitted_m));
    if (apart_nm < nearest_nm) {
      nearest = i;
      nearest_nm = apart_nm;
    }
  }
  return nearest;
}

/// The sizes of one part, what is fitted among them; those of which there is none left out.
std::vector<Size> sizes_of(const SelectivePart& part) {
  const auto own = own_option(part);
  std::vector<Size> sizes{{nm(part.fitted_m), part.fitted_m, true, 0}};
  if (own && std::abs(nm(part.options_m[*own]) - nm(part.fitted_m)) <= same_nm) {
    // Told as the option is written.
    sizes.front().thickness_m = part.options_m[*own];
    sizes.front().thickness_nm = nm(part.options_m[*own]);
  }
  for (std::size_t i = 0; i < part.options_m.size(); ++i) {
    const auto price =
        i < part.prices.size() ? static_cast<std::int64_t>(std::llround(part.prices[i] * 100)) : 0;
    const std::int64_t size_nm = nm(part.options_m[i]);
    const bool known = std::ranges::find(sizes, size_nm, &Size::thickness_nm) != sizes.end();
    if (!known && i != own.value_or(part.options_m.size())) {
      sizes.push_back({size_nm, part.options_m[i], false, price});
    }
  }
  std::ranges::sort(sizes, {}, &Size::thickness_nm);
  return sizes;
}

/// How many of a size a shelf holds, what is fitted in its parts counted in; none: enough.
std::optional<int> stock_of(const std::vector<SelectivePart>& parts, const Shop& shop,
                            const std::string& shelf, std::int64_t size_nm) {
  std::optional<int> stock;
  int fitted = 0;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (shelf_of(parts, i) != shelf) {
      continue;
    }
    for (const Size& size : shop.sizes[i]) {
      fitted += size.fitted && size.thickness_nm == size_nm ? 1 : 0;
    }
    for (std::size_t j = 0; j < parts[i].options_m.size() && !stock; ++j) {
      if (j < parts[i].on_shelf.size() && nm(parts[i].options_m[j]) == size_nm) {
        stock = std::max(parts[i].on_shelf[j], 0);
      }
    }
  }
  return stock ? std::optional(std::min(*stock, 100) + fitted) : std::nullopt;
}

void count_shelves(const std::vector<SelectivePart>& parts, Shop& shop) {
  std::map<std::pair<std::string, std::int64_t>, std::size_t> takers;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    for (const Size& size : shop.sizes[i]) {
      ++takers[{shelf_of(parts, i), size.thickness_nm}];
    }
  }
  for (const auto& [key, count] : takers) {
    const auto stock = stock_of(parts, shop, key.first, key.second);
    if (!stock || *stock >= static_cast<int>(count)) {
      continue;
    }
    const int scarce = *stock > 0 ? static_cast<int>(shop.scarce.size()) : -1;
    if (*stock > 0) {
      shop.scarce.push_back(*stock);
    }
    for (std::size_t i = 0; i < parts.size(); ++i) {
      if (shelf_of(parts, i) != key.first) {
        continue;
      }
      if (*stock == 0) {
        // Named again: C++20 as clang reads it lets no lambda take a structured binding.
        std::erase_if(shop.sizes[i], [thickness_nm = key.second](const Size& size) {
          return size.thickness_nm == thickness_nm;
        });
      }
      for (Size& size : shop.sizes[i]) {
        size.scarce = size.thickness_nm == key.second ? scarce : size.scarce;
      }
    }
  }
}

bool ranks_before(const Half& a, const Half& b) {
  return std::tie(a.way.sum_nm, a.usage, a.way.changed, a.way.price, a.way.picks) <
         std::tie(b.way.sum_nm, b.usage, b.way.changed, b.way.price, b.way.picks);
}

/// Of ways with the same sum and the same usage the best `most`.
void keep_best(std::vector<Half>& halves, std::size_t most) {
  std::ranges::sort(halves, ranks_before);
  std::size_t kept = 0;
  std::size_t alike = 0;
  for (std::size_t i = 0; i < halves.size(); ++i) {
    const bool same = kept > 0 && halves[i].way.sum_nm == halves[kept - 1].way.sum_nm &&
                      halves[i].usage == halves[kept - 1].usage;
    alike = same ? alike + 1 : 0;
    if (alike < most) {
      if (kept != i) {
        halves[kept] = std::move(halves[i]);
      }
      ++kept;
    }
  }
  halves.resize(kept);
}

/// Parts that stand in for each other: of one sort, fitted alike, with the same sizes.
std::vector<std::vector<std::size_t>> alike(const std::vector<SelectivePart>& parts,
                                            const Shop& shop) {
  std::vector<std::vector<std::size_t>> groups;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const auto same = [&](const std::vector<std::size_t>& group) {
      const std::size_t other = group.front();
      return !parts[i].sort.empty() && parts[i].sort == parts[other].sort &&
             std::ranges::equal(shop.sizes[i], shop.sizes[other], [](const Size& a, const Size& b) {
               return a.thickness_nm == b.thickness_nm && a.fitted == b.fitted &&
                      a.price == b.price;
             });
    };
    const auto found = std::ranges::find_if(groups, same);
    if (found == groups.end()) {
      groups.push_back({i});
    } else {
      found->push_back(i);
    }
  }
  return groups;
}

/// Adds one part to every way; a part like the one before it takes nothing thinner.
bool add_part(std::vector<Half>& halves, const Shop& shop, std::size_t part,
              std::optional<std::size_t> like) {
  std::vector<Half> next;
  const std::vector<Size>& sizes = shop.sizes[part];
  const auto fitted = std::ranges::find(sizes, true, &Size::fitted);
  for (const Half& half : halves) {
    const std::size_t first = like ? static_cast<unsigned char>(half.way.picks[*like]) : 0;
    for (std::size_t pick = first; pick < sizes.size(); ++pick) {
      const Size& size = sizes[pick];
      if (size.scarce >= 0 && half.usage[static_cast<std::size_t>(size.scarce)] >=
                                  shop.scarce[static_cast<std::size_t>(size.scarce)]) {
        continue;
      }
      Half more = half;
      more.way.sum_nm += size.thickness_nm - fitted->thickness_nm;
      more.way.changed += size.fitted ? 0 : 1;
      more.way.price += size.price;
      more.way.picks[part] = static_cast<char>(pick);
      if (size.scarce >= 0) {
        ++more.usage[static_cast<std::size_t>(size.scarce)];
      }
      next.push_back(std::move(more));
      if (next.size() > most_ways) {
        return false;
      }
    }
  }
  halves = std::move(next);
  return true;
}

bool add_group(std::vector<Half>& halves, const Shop& shop, const std::vector<std::size_t>& group,
               std::size_t most) {
  std::optional<std::size_t> like;
  for (const std::size_t part : group) {
    if (!add_part(halves, shop, part, like)) {
      return false;
    }
    like = part;
  }
  keep_best(halves, most);
  return true;
}

} // namespace

std::int64_t nm(double length_m) {
  return std::llround(length_m * 1e9);
}

Way both(const Way& a, const Way& b) {
  Way way{a.sum_nm + b.sum_nm, a.changed + b.changed, a.price + b.price, a.picks};
  for (std::size_t i = 0; i < way.picks.size(); ++i) {
    way.picks[i] = way.picks[i] == unpicked ? b.picks[i] : way.picks[i];
  }
  return way;
}

bool Shop::has(const std::string& usage_a, const std::string& usage_b) const {
  for (std::size_t i = 0; i < scarce.size(); ++i) {
    if (usage_a[i] + usage_b[i] > scarce[i]) {
      return false;
    }
  }
  return true;
}

std::optional<Halves> halves_of(const std::vector<SelectivePart>& parts, std::size_t most) {
  Halves halves;
  for (const SelectivePart& part : parts) {
    halves.shop.sizes.push_back(sizes_of(part));
    if (halves.shop.sizes.back().size() > most_sizes) {
      return std::nullopt;
    }
  }
  count_shelves(parts, halves.shop);
  Half none;
  none.way.picks.assign(parts.size(), unpicked);
  none.usage.assign(halves.shop.scarce.size(), '\0');
  halves.a.push_back(none);
  halves.b.push_back(none);
  // Large groups first, each to the half that has fewer ways so far.
  auto groups = alike(parts, halves.shop);
  std::ranges::stable_sort(groups, std::greater{}, [&](const std::vector<std::size_t>& group) {
    return static_cast<double>(group.size()) *
           std::log(static_cast<double>(halves.shop.sizes[group.front()].size()));
  });
  for (const std::vector<std::size_t>& group : groups) {
    std::vector<Half>& half = halves.a.size() <= halves.b.size() ? halves.a : halves.b;
    if (!add_group(half, halves.shop, group, std::max<std::size_t>(most, 1))) {
      return std::nullopt;
    }
  }
  keep_best(halves.b, std::max<std::size_t>(most, 1));
  return halves;
}

} // namespace lugline::choosing

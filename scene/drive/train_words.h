// What a settled train does, in plain sentences.
#pragma once

#include "scene/drive/train.h"

#include <string>
#include <vector>

namespace lugline {

/// "It drives at 22/9 (2.444), the output turning clockwise; the low roller clutch holds."
std::string words_of(const Drive& drive, const TrainAnswer& answer);

/// "a", "a and b", "a, b and c".
std::string listed(const std::vector<std::string>& names);

/// The element's name, or its id where it has none.
std::string name_of_element(const Drive& drive, const std::string& id);
std::string name_of_member(const Drive& drive, const std::string& id);

/// "22/9 (2.444)", "1.44 " where the fraction is too long to read; "3".
std::string text_of(const ExactFigure& figure);

} // namespace lugline

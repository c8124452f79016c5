#include "sheet/labels.hpp"

#include <algorithm>

#include "geometry/survey.hpp"

namespace portwright::sheet {

Labels labels_of(const geometry::Survey& survey) {
  Labels labels;
  for (const geometry::PortSlots& port : survey.ports) {
    std::string name = port.name;
    std::replace(name.begin(), name.end(), '_', ' ');
    labels.ports.push_back(port.twin_of >= 0 ? name + ", twin" : name);
  }
  labels.needs = survey.needs;
  return labels;
}

}  // namespace portwright::sheet

#pragma once

#include <compare>
#include <cstdint>

namespace sheaf {

/// A distance on paper, in thousandths of a point (1 pt = 1/72 inch, the unit
/// of PDF). An integer, so that the same layout comes out the same on every
/// machine. y grows downwards everywhere but in the PDF writer.
class Length {
 public:
  constexpr Length() = default;

  static constexpr Length from_mils(std::int64_t mils) { return Length(mils); }
  /// Rounds to the nearest thousandth, halves away from zero.
  static constexpr Length from_pt(double pt) { return Length(round(pt * 1e3)); }
  static constexpr Length from_mm(double mm) {
    return Length(round(mm * 72e3 / 25.4));
  }

  constexpr std::int64_t mils() const { return mils_; }
  constexpr double pt() const { return static_cast<double>(mils_) / 1e3; }
  constexpr double mm() const {
    return static_cast<double>(mils_) * 25.4 / 72e3;
  }

  constexpr Length& operator+=(Length o) { return mils_ += o.mils_, *this; }
  constexpr Length& operator-=(Length o) { return mils_ -= o.mils_, *this; }
  friend constexpr Length operator+(Length a, Length b) { return a += b; }
  friend constexpr Length operator-(Length a, Length b) { return a -= b; }
  friend constexpr Length operator-(Length a) { return Length(-a.mils_); }
  friend constexpr Length operator*(Length a, std::int64_t n) {
    return Length(a.mils_ * n);
  }
  friend constexpr Length operator*(std::int64_t n, Length a) { return a * n; }
  friend constexpr Length operator/(Length a, std::int64_t n) {
    return Length(a.mils_ / n);
  }
  /// How many whole times `b` goes into `a`.
  friend constexpr std::int64_t operator/(Length a, Length b) {
    return a.mils_ / b.mils_;
  }
  /// `a` times a ratio such as 1.5 or a scale.
  friend constexpr Length scaled(Length a, double ratio) {
    return Length(round(static_cast<double>(a.mils_) * ratio));
  }
  friend constexpr auto operator<=>(Length, Length) = default;

 private:
  explicit constexpr Length(std::int64_t mils) : mils_(mils) {}
  static constexpr std::int64_t round(double value) {
    return static_cast<std::int64_t>(value < 0 ? value - 0.5 : value + 0.5);
  }

  std::int64_t mils_ = 0;
};

namespace literals {
constexpr Length operator""_pt(long double v) {
  return Length::from_pt(static_cast<double>(v));
}
constexpr Length operator""_pt(unsigned long long v) {
  return Length::from_pt(static_cast<double>(v));
}
constexpr Length operator""_mm(long double v) {
  return Length::from_mm(static_cast<double>(v));
}
constexpr Length operator""_mm(unsigned long long v) {
  return Length::from_mm(static_cast<double>(v));
}
}  // namespace literals

}  // namespace sheaf

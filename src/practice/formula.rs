//! The formulas of the working, evaluated again with a thing misunderstood: the same language that
//! `tests/working.rs` holds every step to, with `sum`, `least` and `greatest` over the rows of a list.

use crate::budget::go_on;
use std::f64::consts::PI;

/// What is misunderstood while a formula is evaluated.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Misread {
    /// Nothing.
    #[cfg(test)]
    Nothing,
    /// The pocket calculator counts angles in radians, and is given and read as degrees.
    CalculatorInRadians,
    /// Degrees are put where a formula needs radians.
    DegreesForRadians,
    /// A part of an angle is taken twice as large: the whole for the half.
    WholeForHalf,
    /// A part of an angle is halved once more.
    HalfOfHalf,
    /// The cosine is taken for the sine and the sine for the cosine.
    CosineForSine,
    /// A tangent is turned over: the sides are in each other's place.
    TangentTurnedOver,
}

/// A symbol's values, one or one for each row, in SI units.
#[derive(Clone, Debug)]
pub struct Symbol {
    /// The symbol.
    pub symbol: &'static str,
    /// Its values.
    pub values: Vec<f64>,
    /// Whether it is an angle.
    pub is_angle: bool,
}

/// A formula taken apart.
#[derive(Debug)]
enum Part {
    Number(f64),
    Symbol(String),
    Negative(Box<Part>),
    Two(char, Box<Part>, Box<Part>),
    Call(String, Vec<Part>),
}

/// A formula that can be evaluated.
#[derive(Debug)]
pub struct Formula(Part);

impl Formula {
    /// Reads `x = …`; `None` where it is not of the working's language.
    pub fn read(text: &str) -> Option<Self> {
        let right: Vec<char> = text.split_once('=')?.1.chars().filter(|c| !c.is_whitespace()).collect();
        let mut reader = Reader { text: &right, at: 0 };
        let part = reader.sum()?;
        (reader.at == right.len()).then_some(Self(part))
    }

    /// Its values, one for each of `rows`; none where there is no time for them.
    pub fn values(&self, symbols: &[Symbol], misread: Misread, gives_angle: bool, rows: usize) -> Option<Vec<f64>> {
        let context = Context { symbols, misread, gives_angle };
        (0..rows).map(|row| go_on().ok().and_then(|()| context.value(&self.0, Some(row), false))).collect()
    }
}

struct Reader<'t> {
    text: &'t [char],
    at: usize,
}

impl Reader<'_> {
    fn peek(&self) -> Option<char> {
        self.text.get(self.at).copied()
    }

    fn take(&mut self, of: &[char]) -> Option<char> {
        let next = self.peek().filter(|c| of.contains(c))?;
        self.at += 1;
        Some(next)
    }

    fn sum(&mut self) -> Option<Part> {
        let mut left = self.product()?;
        while let Some(sign) = self.take(&['+', '-', '−', '–']) {
            let sign = if sign == '+' { '+' } else { '-' };
            left = Part::Two(sign, left.into(), self.product()?.into());
        }
        Some(left)
    }

    fn product(&mut self) -> Option<Part> {
        let mut left = self.signed()?;
        while let Some(sign) = self.take(&['×', '·', '*', '/']) {
            let sign = if sign == '/' { '/' } else { '*' };
            left = Part::Two(sign, left.into(), self.signed()?.into());
        }
        Some(left)
    }

    fn signed(&mut self) -> Option<Part> {
        if self.take(&['-', '−', '–']).is_some() {
            return Some(Part::Negative(self.signed()?.into()));
        }
        self.power()
    }

    fn power(&mut self) -> Option<Part> {
        let base = self.single()?;
        if self.take(&['^']).is_some() {
            return Some(Part::Two('^', base.into(), self.signed()?.into()));
        }
        Some(base)
    }

    fn single(&mut self) -> Option<Part> {
        let first = self.peek()?;
        if self.take(&['(']).is_some() {
            let inside = self.sum()?;
            return self.take(&[')']).map(|_| inside);
        }
        let from = self.at;
        if first.is_ascii_digit() {
            while self.peek().is_some_and(|c| c.is_ascii_digit() || c == '.') {
                self.at += 1;
            }
            let number: String = self.text[from..self.at].iter().collect();
            return number.parse().ok().map(Part::Number);
        }
        if first == '√' {
            self.at += 1;
        }
        while self.peek().is_some_and(|c| c.is_alphanumeric() || c == '_') {
            self.at += 1;
        }
        let word: String = self.text[from..self.at].iter().collect();
        if word.is_empty() {
            return None;
        }
        if self.take(&['(']).is_none() {
            return Some(Part::Symbol(word));
        }
        let mut inside = vec![self.sum()?];
        while self.take(&[',']).is_some() {
            inside.push(self.sum()?);
        }
        self.take(&[')']).map(|_| Part::Call(word, inside))
    }
}

struct Context<'s> {
    symbols: &'s [Symbol],
    misread: Misread,
    gives_angle: bool,
}

impl Context<'_> {
    fn symbol(&self, name: &str) -> Option<&Symbol> {
        self.symbols.iter().find(|symbol| symbol.symbol == name)
    }

    fn has_angle(&self, part: &Part) -> bool {
        match part {
            Part::Number(_) => false,
            Part::Symbol(name) => self.symbol(name).is_some_and(|symbol| symbol.is_angle),
            Part::Negative(inside) => self.has_angle(inside),
            Part::Two(_, left, right) => self.has_angle(left) || self.has_angle(right),
            // What a function of an angle gives is no angle any more.
            Part::Call(..) => false,
        }
    }

    /// The value in a row; without a row only what is the same in all.
    fn value(&self, part: &Part, row: Option<usize>, in_trig: bool) -> Option<f64> {
        match part {
            Part::Number(number) => Some(*number),
            Part::Symbol(name) => match self.symbol(name) {
                None if name == "π" => Some(PI),
                None => None,
                Some(symbol) => {
                    let value = match symbol.values.as_slice() {
                        [one] => *one,
                        many => *many.get(row?)?,
                    };
                    let as_degrees = self.misread == Misread::DegreesForRadians && !self.gives_angle;
                    Some(if as_degrees && symbol.is_angle && !in_trig { value.to_degrees() } else { value })
                }
            },
            Part::Negative(inside) => self.value(inside, row, in_trig).map(|value| -value),
            Part::Two(sign, left, right) => {
                let (a, mut b) = (self.value(left, row, in_trig)?, self.value(right, row, in_trig)?);
                let is_part_of_angle = *sign == '/'
                    && matches!(**right, Part::Number(_))
                    && self.has_angle(left)
                    && (in_trig || self.gives_angle);
                if is_part_of_angle {
                    match self.misread {
                        Misread::WholeForHalf => b /= 2.0,
                        Misread::HalfOfHalf => b *= 2.0,
                        _ => {}
                    }
                }
                Some(match sign {
                    '+' => a + b,
                    '-' => a - b,
                    '*' => a * b,
                    '/' => a / b,
                    _ => a.powf(b),
                })
            }
            Part::Call(name, inside) => self.call(name, inside, row, in_trig),
        }
    }

    fn call(&self, name: &str, inside: &[Part], row: Option<usize>, in_trig: bool) -> Option<f64> {
        if let "sum" | "least" | "greatest" = name {
            return self.over_rows(name, inside.first()?);
        }
        let is_trig = matches!(name, "sin" | "cos" | "tan");
        let first = self.value(inside.first()?, row, in_trig || is_trig)?;
        let second = inside.get(1).and_then(|part| self.value(part, row, in_trig));
        let radians = self.misread == Misread::CalculatorInRadians;
        let to = |angle: f64| if radians { angle.to_degrees() } else { angle };
        let back = |angle: f64| if radians { angle.to_radians() } else { angle };
        let swapped = self.misread == Misread::CosineForSine;
        let turned_over = self.misread == Misread::TangentTurnedOver;
        Some(match name {
            "sin" if swapped => first.cos(),
            "cos" if swapped => first.sin(),
            "tan" if turned_over => 1.0 / first.tan(),
            "atan" if turned_over => (1.0 / first).atan(),
            "atan2" if turned_over => second?.atan2(first),
            "sin" => to(first).sin(),
            "cos" => to(first).cos(),
            "tan" => to(first).tan(),
            "asin" => back(first.asin()),
            "acos" => back(first.acos()),
            "atan" => back(first.atan()),
            "atan2" => back(first.atan2(second?)),
            "√" | "sqrt" => first.sqrt(),
            "abs" => first.abs(),
            "floor" => first.floor(),
            "ceil" => first.ceil(),
            "round" => first.round(),
            "signum" => first.signum(),
            "ln" => first.ln(),
            "exp" => first.exp(),
            "max" => first.max(second?),
            "min" => first.min(second?),
            _ => return None,
        })
    }

    fn over_rows(&self, name: &str, part: &Part) -> Option<f64> {
        let rows = self.symbols.iter().map(|symbol| symbol.values.len()).max().unwrap_or(1);
        let values: Vec<f64> = (0..rows).map(|row| self.value(part, Some(row), false)).collect::<Option<_>>()?;
        Some(match name {
            "sum" => values.iter().sum(),
            "least" => values.iter().copied().fold(f64::INFINITY, f64::min),
            _ => values.iter().copied().fold(f64::NEG_INFINITY, f64::max),
        })
    }
}

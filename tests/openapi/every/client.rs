//! Asks a running service with the client that openapi-generator made of its description: a plain answer, a range,
//! backwards, a list, a refusal. Batches it cannot ask: of several forms of which more than one may fit (`anyOf`) this
//! generator makes one struct with the members of all, and those of an item's inputs are such.

use shop_client::apis::configuration::Configuration;
use shop_client::apis::holes_api::{DrillPointError, drill_point, drill_point_post};
use shop_client::apis::speeds_api::spindle_speed;
use shop_client::apis::{Error, ResponseContent};
use shop_client::models::{
    CalculatorId, DrillDiameter, DrillPointAnswer, DrillPointRequest, DrillPointSought, LengthUnit, LengthValue,
};

fn near(value: f64, wanted: f64) {
    assert!((value - wanted).abs() < 5e-5 * wanted.abs().max(1.0), "{value}, not {wanted}");
}

type Asked = Result<DrillPointAnswer, Error<DrillPointError>>;

/// Asks for a drill's point: the diameter, and backwards the input to find and the result that is wanted.
fn ask(service: &Configuration, diameter: Option<&str>, find: Option<DrillPointSought>, wanted: Option<&str>) -> Asked {
    drill_point(
        service, diameter, None, None, None, None, None, None, None, None, None, None, None, None, None, find, wanted, None,
        None, None,
    )
}

fn main() {
    let base_path = std::env::args().nth(1).expect("the address of the service");
    let service = Configuration { base_path, ..Configuration::default() };

    // 0.25 in / tan 59 deg = 0.1502 in.
    let answer = ask(&service, Some("1/2 in"), None, None).expect("an answer");
    assert_eq!(answer.calculator, CalculatorId::HOLES_DRILL_POINT);
    let point = answer.result.expect("a result").point_length;
    near(point.value, 0.1502);
    assert_eq!(point.text, "0.1502 in");

    let cases = ask(&service, Some("1/4 in|1/2 in"), None, None).expect("an answer").rows.expect("rows");
    assert_eq!(cases[1].result.as_ref().expect("a result").point_length, point);

    // 2 x 0.152 in x tan 59 deg = 0.5059 in.
    let found = ask(&service, None, Some(DrillPointSought::Diameter), Some("point_length:0.152 in")).expect("an answer");
    near(found.roots.expect("roots")[0].value.value, 0.5059);

    let size = LengthValue::new(0.5, LengthUnit::IN);
    let as_object = DrillPointRequest {
        diameter: Some(Box::new(DrillDiameter::LengthValue(Box::new(size)))),
        working: Some(false),
        ..DrillPointRequest::new()
    };
    let posted = drill_point_post(&service, as_object).expect("an answer");
    assert_eq!(posted.result.expect("a result").point_length, point);
    assert!(posted.working.is_empty());

    // 12 x 70 / (pi x 0.5) = 534.76 rpm; the step below is 450.
    let steps = Some(vec!["450 rpm".to_owned(), "630 rpm".to_owned()]);
    let speed = spindle_speed(
        &service, Some("70 ft/min"), Some("0.5 in"), None, None, None, None, None, None, steps, None, None, None, None, None,
        None, None, None, None, None, None, None,
    );
    let speed = speed.expect("an answer").result.expect("a result");
    near(speed.exact_speed.value, 534.7606);
    near(speed.spindle_speed.value, 450.0);

    let Err(Error::ResponseError(ResponseContent { status, entity, .. })) = ask(&service, Some("0.5"), None, None) else {
        panic!("a bare number is answered");
    };
    let Some(DrillPointError::Status422(problem)) = entity else { panic!("no problem: {entity:?}") };
    assert_eq!((status.as_u16(), problem.errors[0].field.as_str()), (422, "/diameter"));
    assert_eq!(problem.errors[0].r#try.as_deref(), Some("0.5 in"));
    println!("the Rust client was answered: cases, roots, JSON, a list, a refusal");
}

import {
  Designs,
  DesignsAsked,
  DraftAsked,
  Plan,
  PlanRisks,
  PlanTemplate,
  RisksAsked,
  Showable,
  ShowableAsked,
} from '@breakbook/lab';
import { Body, Controller, Get, HttpCode, Post } from '@nestjs/common';
import { z } from 'zod';
import { acceptance } from '../arithmetic.js';
import { parsedBy } from '../http/parsed-by.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { PlanningService } from './planning.service.js';

const TemplateList = z.strictObject({ items: z.array(PlanTemplate) });

/** Planning: what a test would need and risk. Nothing that is asked here is kept. */
@Controller('api/planning')
export class PlanningController {
  constructor(private readonly planning: PlanningService) {}

  @Post('designs')
  @HttpCode(200)
  @Duty('signed in')
  @Answers('Tests that could show a claim, side by side: specimens, cost, chances, curves', Designs)
  designs(@Body(parsedBy(DesignsAsked)) asked: DesignsAsked): Promise<Designs> {
    return this.planning.designs(asked);
  }

  @Post('showable')
  @HttpCode(200)
  @Duty('signed in')
  @Answers('What so many specimens can show', Showable)
  showable(@Body(parsedBy(ShowableAsked)) asked: ShowableAsked): Promise<Showable> {
    return this.planning.showable(asked);
  }

  @Post('risks')
  @HttpCode(200)
  @Duty('signed in')
  @Answers('How often a lot passes a plan that it should not: by criterion, schedule and line', PlanRisks)
  risks(@Body(parsedBy(RisksAsked)) asked: RisksAsked, @SignedIn() by: SignedInActor): Promise<PlanRisks> {
    return this.planning.risks(by.labId, asked);
  }

  @Get('templates')
  @Duty('signed in')
  @Answers('Drafts of plans, and what each asks for', TemplateList)
  async templates(): Promise<z.infer<typeof TemplateList>> {
    const { planTemplates } = await acceptance();
    return { items: planTemplates() };
  }

  @Post('drafts')
  @HttpCode(200)
  @Duty('signed in')
  @Answers('A plan from a template, to be proposed as any other', Plan)
  async draft(@Body(parsedBy(DraftAsked)) { template, ...filling }: DraftAsked): Promise<Plan> {
    const { planFrom } = await acceptance();
    return planFrom(template, filling);
  }
}
